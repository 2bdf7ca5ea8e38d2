"""The place where layouts of a surface stand side by side: linked views, the wipe, the table."""

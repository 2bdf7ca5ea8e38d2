"""The drawing tools, one file each; every tool is a generator that `running.ToolRun` drives."""

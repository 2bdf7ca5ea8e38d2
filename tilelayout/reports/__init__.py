"""Figures and tables that know no device, and the sheets printed from them."""

"""Arrays and shapely shapes in, arrays and shapely shapes out; knows no word of the trade."""

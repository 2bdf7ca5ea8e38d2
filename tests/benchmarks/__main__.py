"""Runs the benchmarks and prints their tables: `python -m tests.benchmarks`."""

from __future__ import annotations

from tests.benchmarks import bench_laying, bench_offset_map, bench_seek

if __name__ == "__main__":
    bench_laying.test_laying_beats_the_plain_ways_by_the_agreed_ratios()
    bench_offset_map.test_the_first_picture_beats_the_plain_loop()
    bench_seek.test_many_starts_at_once_beat_one_after_another()
    bench_seek.test_the_exact_start_beats_a_scan_of_a_sixteenth_of_an_inch()
    bench_seek.test_any_room_and_pattern_beside_a_scan_of_an_eighth_of_an_inch()
    bench_seek.test_every_aim_on_rooms_of_60_500_and_5000_tiles()

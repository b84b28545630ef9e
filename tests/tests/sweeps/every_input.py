"""Reads sweeps of one input each with pandas, PyArrow and DuckDB: every reader sees both values.

Usage: every_input.py CASES.json

CASES.json lists, for every input, the folder it was swept into, the column of its values, the two
values, the rows as text, and the rows that `run` wrote for the same points.
"""

import json
import sys

import duckdb
import pandas as pd
import pyarrow.parquet as pq


def check(true, *words):
    if not true:
        sys.exit("every_input: " + " ".join(str(word) for word in words))


def both(reader, case, frame):
    """The two values are there, and the outcome of the same name beside them."""
    names = list(frame.columns)
    check(len(set(names)) == len(names), reader, case["input"], "has a column twice:", names)
    check(case["column"] in names, reader, case["input"], "has no", case["column"], "in", names)
    found = sorted(frame[case["column"]].unique().tolist())
    check(found == sorted(case["values"]), reader, case["input"], "is", found, "not", case["values"])
    for outcome in ("rebound_restitution", "verdict"):
        check(outcome in names, reader, case["input"], "has no", outcome)
    check(frame["rebound_restitution"].notna().any(), reader, case["input"], "no restitution acted")


def main(cases):
    with open(cases, encoding="utf-8") as file:
        cases = json.load(file)
    check(len(cases) > 20, "cases:", len(cases))
    for case in cases:
        shards = case["folder"] + "/shards"
        both("pandas", case, pd.read_parquet(shards))
        both("PyArrow", case, pq.read_table(shards).to_pandas())
        both("DuckDB", case, duckdb.sql(f"select * from '{shards}/*.parquet'").df())
        both("pandas, CSV", case, pd.read_csv(case["folder"] + "/rows.csv"))
        lines = pd.read_json(case["folder"] + "/rows.jsonl", lines=True, precise_float=True)
        both("pandas, JSON Lines", case, lines)
        both("pandas, run", case, pd.read_csv(case["run"]))
    print("read", len(cases), "inputs with pandas", pd.__version__)


main(*sys.argv[1:])

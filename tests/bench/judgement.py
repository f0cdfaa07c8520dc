"""What a data person would write instead of the judge step: the same questions of the same readings, by polars.

For each job: the deepest pressure, the valve-off (the last reading near the lowest pressure, before the rise), how long the
pressure was held at or below the target before it, how far it rose in the isolation, the leak as the slope of a straight line
through that rise, and from these an outcome (pass, suspect or fail) for reaching the target, holding it, and the rise.

It leaves out: breaks with nitrogen and repeated pulls (the deepest one counts), spikes, gaps and the gauge's grain, marks of the
source, more than one gauge, what a rise is made of (moisture, outgassing, a dead end, settling), intervals of any figure, what the
test could not have seen, pull-down speed, water that boils, tested volume, every other check, copied curves, and the evidence. On a tight system the rise is too small to show when the valve was shut: it is found
late, and the rise is not evaluated (55 of 317 drawn jobs). Where the script decides a rise it agrees with the judge step on 197 of 199.

Usage: judgement.py SEGMENTS_GLOB JOBS_CSV OUT_PARQUET. Prints its time, CPU time and most memory as JSON.
"""

import json
import resource
import sys
import time

start = time.perf_counter()

import polars as pl  # noqa: E402  (its import is part of what the script takes)

USUAL_TARGET_PA = 66.66
USUAL_TEST_S = 600
BREAK_PA = 3_000  # refrigerant or nitrogen let in: the isolation is over
NEAR = 1.05  # a reading counts as lowest within 5 %, about the noise of a gauge
SLACK = 1.1  # over a limit by less than 10 % is suspect, not a fail


def judged(segments: str, jobs_csv: str) -> pl.LazyFrame:
    jobs = pl.scan_csv(jobs_csv, infer_schema_length=None).select(
        "job_id", "vacuum_target_pa", "hold_target_s", "rise_test_s", "rise_limit_pa", "rise_limit_kind"
    )
    readings = (
        pl.scan_parquet(segments)
        .select("job_id", "elapsed_s", "vacuum_pa")
        .filter(pl.col("vacuum_pa").is_finite())
    )
    # The files are in the order of job and time, and a group keeps the order of its rows: no sort is needed.
    time_s, pa = pl.col("elapsed_s"), pl.col("vacuum_pa")
    pumped = readings.group_by("job_id").agg(
        deepest_pa=pa.min(),
        off_s=time_s.filter(pa <= NEAR * pa.min()).last(),
        interval_s=(time_s.max() - time_s.min()) / pl.len(),
    )
    phases = pumped.join(jobs, on="job_id", how="left").with_columns(
        target_pa=pl.col("vacuum_target_pa").fill_null(USUAL_TARGET_PA), test_s=pl.col("rise_test_s").fill_null(USUAL_TEST_S)
    )
    since_s = time_s - pl.col("off_s")
    tested = (since_s >= 0) & (since_s <= pl.col("test_s")) & (pa < BREAK_PA)
    t, p = pl.when(tested).then(since_s), pl.when(tested).then(pa)
    sums = (
        readings.join(phases.select("job_id", "off_s", "target_pa", "test_s"), on="job_id")
        .group_by("job_id")
        .agg(
            held=((since_s <= 0) & (pa <= pl.col("target_pa"))).sum(),
            n=tested.sum(),
            t=t.sum(),
            p=p.sum(),
            tt=(t * t).sum(),
            tp=(t * p).sum(),
            pp=(p * p).sum(),
            rise_s=t.max(),
            # the pressure at the end, by the mean of its last half minute
            end_pa=pl.when(tested & (since_s >= pl.col("test_s") - 30)).then(pa).mean(),
            top_pa=p.max(),
        )
    )
    n, tt, tp = pl.col("n"), pl.col("tt") - pl.col("t") ** 2 / pl.col("n"), pl.col("tp") - pl.col("t") * pl.col("p") / pl.col("n")
    end_pa = pl.col("end_pa").fill_null(pl.col("top_pa"))
    limit_pa = pl.when(pl.col("rise_limit_kind") == "rise").then(pl.col("deepest_pa") + pl.col("rise_limit_pa")).otherwise(pl.col("rise_limit_pa"))
    return (
        phases.join(sums, on="job_id")
        .with_columns(
            hold_s=pl.col("held") * pl.col("interval_s"),
            rise_pa=end_pa - pl.col("deepest_pa"),
            leak_pa_per_s=tp / tt,
            residual_pa=((pl.col("pp") - pl.col("p") ** 2 / n - tp**2 / tt).clip(0) / (n - 2)).sqrt(),
        )
        .select(
            "job_id",
            "deepest_pa",
            "off_s",
            "hold_s",
            "rise_s",
            "rise_pa",
            "leak_pa_per_s",
            leak_error_pa_per_s=pl.col("residual_pa") / tt.sqrt(),
            deep=outcome(pl.col("deepest_pa"), pl.col("vacuum_target_pa")),
            held=outcome(-pl.col("hold_s"), -pl.col("hold_target_s"), slack=0.95),
            rise=pl.when(pl.col("rise_s") >= 0.95 * pl.col("rise_test_s"))
            .then(outcome(end_pa, limit_pa))
            .otherwise(pl.lit("not-evaluated")),
        )
    )


def outcome(value: pl.Expr, limit: pl.Expr, slack: float = SLACK) -> pl.Expr:
    return (
        pl.when(value.is_null() | limit.is_null())
        .then(pl.lit("not-evaluated"))
        .when(value <= limit)
        .then(pl.lit("pass"))
        .when(value <= slack * limit)
        .then(pl.lit("suspect"))
        .otherwise(pl.lit("fail"))
    )


def peak_mib() -> float:
    """Of this process alone: what `getrusage` gives begins with the memory of the process that started it."""
    try:
        with open("/proc/self/status") as status:
            return next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024
    except (OSError, StopIteration):
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    segments, jobs_csv, out = sys.argv[1:4]
    found = judged(segments, jobs_csv).collect(engine="streaming")
    found.write_parquet(out)
    used = resource.getrusage(resource.RUSAGE_SELF)
    print(
        json.dumps(
            {
                "seconds": time.perf_counter() - start,
                "cpuSeconds": used.ru_utime + used.ru_stime,
                "peakMiB": peak_mib(),
                "jobs": found.height,
                "polars": pl.__version__,
                "outcomes": {name: dict(found[name].value_counts().rows()) for name in ("deep", "held", "rise")},
            }
        )
    )


if __name__ == "__main__":
    main()

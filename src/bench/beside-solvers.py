"""Gives a general mixed-integer solver the calendars that CalendarStudy wrote, a fixed time each; prints rows of a table.

    beside-solvers.py HiGHS|SCIP|CP-SAT|CP-SAT-from-ours SECONDS FILE.mps...     needs highspy, ortools

CP-SAT-from-ours starts at the calendar of this project's scheduler, in FILE.start.
"""
import sys
import time


def highs(file, seconds):
    import highspy

    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("time_limit", seconds)
    model.readModel(file)
    model.run()
    info = model.getInfo()
    return info.objective_function_value, info.mip_dual_bound


def hint(model, file):
    with open(file.removesuffix(".mps") + ".start") as lines:
        chosen = set(lines.read().split())
    for variable in model.get_variables():
        model.add_hint(variable, 1 if variable.name in chosen else 0)


def ortools(solver, parameters, prepare=lambda model, file: None):
    def run(file, seconds):
        from ortools.linear_solver.python import model_builder

        model = model_builder.Model()
        if not model.import_from_mps_file(file):
            sys.exit("cannot read " + file)
        prepare(model, file)
        search = model_builder.Solver(solver)
        search.set_time_limit_in_seconds(seconds)
        search.set_solver_specific_parameters(parameters)
        search.solve(model)
        return search.objective_value, search.best_objective_bound

    return run


SOLVERS = {
    "HiGHS": highs,
    "SCIP": ortools("SCIP", ""),
    "CP-SAT": ortools("SAT", "num_workers: 8 linearization_level: 2"),
    "CP-SAT-from-ours": ortools("SAT", "num_workers: 8 linearization_level: 2", hint),
}

name, limit = sys.argv[1], float(sys.argv[2])
for file in sys.argv[3:]:
    start = time.monotonic()
    cost, bound = SOLVERS[name](file, limit)
    fleet = file.rsplit("/", 1)[-1].removesuffix(".mps")
    print(f"| {fleet} | {name} | {time.monotonic() - start:.0f} | {cost:,.0f} | {bound:,.0f} |", flush=True)

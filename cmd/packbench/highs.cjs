// Solves the model in the file argv[2], in the LP format of CPLEX, within
// argv[3] seconds, and prints what came out as one line of JSON. The package
// highs is found through NODE_PATH.
const fs = require("fs");
const load = require("highs");

load().then((highs) => {
  const { modelStatus, solutionStatus } = highs.constants;
  const start = performance.now();
  const answer = highs.withModel((model) => {
    model.readModel({ format: "lp", data: fs.readFileSync(process.argv[2]) });
    model.options.set({
      time_limit: Number(process.argv[3]),
      mip_rel_gap: 0,
      mip_abs_gap: 0,
      output_flag: false,
    });
    model.run();
    return {
      optimal: model.getModelStatus() === modelStatus.optimal,
      feasible: model.info.get("primal_solution_status") === solutionStatus.feasible,
      length: model.info.get("objective_function_value"),
      bound: model.info.get("mip_dual_bound"),
    };
  });
  answer.seconds = (performance.now() - start) / 1000;
  // JSON has no infinity: such a number becomes null.
  console.log(JSON.stringify(answer));
});

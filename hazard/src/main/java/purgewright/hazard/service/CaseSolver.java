package purgewright.hazard.service;

import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult;

/** Solves one operating point; the network solver, or a stand-in in tests. Threads may share it. */
@FunctionalInterface
public interface CaseSolver {
    /**
     * Solves a case.
     *
     * @param guess a nearby solution to start from, or null; one that leads nowhere costs time and never the answer: the solver then
     *     starts afresh by itself
     */
    SolveResult solve(Case model, SolveResult.Converged guess);
}

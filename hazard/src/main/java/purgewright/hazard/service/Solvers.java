package purgewright.hazard.service;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import purgewright.fluids.PropertyEngine;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.network.SolveResult;

/** Finds the network solver by name, because the two rooms grow side by side; to be replaced by a plain constructor call. */
final class Solvers {
    private Solvers() {}

    static CaseSolver network(PropertyEngine engine) {
        try {
            Class<?> solver = Class.forName("purgewright.sealflow.network.NetworkSolver");
            Class<?> settings = Class.forName("purgewright.sealflow.network.SolverSettings");
            Object made = solver.getConstructor(PropertyEngine.class, settings)
                    .newInstance(engine, settings.getField("DEFAULT").get(null));
            Method solve = solver.getMethod("solve", Case.class, SolveResult.Converged.class);
            return (model, guess) -> {
                try {
                    return (SolveResult) solve.invoke(made, model, guess);
                } catch (InvocationTargetException e) {
                    if (e.getCause() instanceof RuntimeException r) {
                        throw r;
                    }
                    throw new IllegalStateException(e.getCause());
                } catch (ReflectiveOperationException e) {
                    throw new IllegalStateException(e);
                }
            };
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("no network solver in this build", e);
        }
    }
}

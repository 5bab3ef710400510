package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import purgewright.gui.bench.Workbench;
import purgewright.hazard.service.CheckResult;
import purgewright.sealflow.network.SolveResult;

/** States of all cavities and flows of all passages, in every phase, as comma-separated values. */
public final class StateTable {
    private StateTable() {}

    /** Of the bench's latest result; empty where there is none. */
    public static String csv(Workbench bench) {
        CheckResult result = bench.result();
        if (result == null) {
            return "";
        }
        List<String> streams = new ArrayList<>();
        result.model().streams().forEach(s -> streams.add(s.name()));
        List<Object> heads = new ArrayList<>(List.of(
                "phase",
                "kind",
                "name",
                "pressure_Pa",
                "temperature_K",
                "density_kg_m3",
                "flow_kg_s",
                "from",
                "to",
                "choked",
                "gap_velocity_m_s"));
        streams.forEach(s -> heads.add("mass fraction of " + s));
        Csv csv = new Csv("states and flows", result.document()).line(heads.toArray());
        for (CheckResult.PhaseResult phase : result.phases()) {
            if (!(phase.solve() instanceof SolveResult.Converged solved)) {
                continue;
            }
            solved.cavities().forEach((name, c) -> {
                List<Object> cells = new ArrayList<>(List.of(
                        phase.name(),
                        "cavity",
                        name,
                        c.state().pressure(),
                        c.state().temperature(),
                        c.state().density(),
                        "",
                        "",
                        "",
                        "",
                        ""));
                streams.forEach(s -> cells.add(c.streamFractions().getOrDefault(s, 0.0)));
                csv.line(cells.toArray());
            });
            solved.passages()
                    .forEach((name, p) -> csv.line(
                            phase.name(),
                            "passage",
                            name,
                            "",
                            "",
                            "",
                            p.flow().massFlow(),
                            p.from(),
                            p.to(),
                            p.flow().choked(),
                            p.flow().gapVelocity()));
        }
        return csv.toString();
    }
}

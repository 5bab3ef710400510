package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Whether the stated supply can give the pressure and the flow at which the case is judged: a barrier held by gas that never arrives
 * holds nothing. Speaks up only where it cannot, and only for the case as stated: a fault sets what the supply gives itself.
 */
public final class SupplyRules {
    /** Key of a pressure or a flow that the stated supply cannot give. */
    public static final String SUPPLY = "supply-capability";

    /** Shares of pressure and flow that are no matter: a held main is found to a millionth. */
    private static final double SLACK = 1e-4;

    private SupplyRules() {}

    /** Pressure and flow of the cavity that the supply feeds, against what its bottles, main or tank can give. */
    public static List<Finding> judge(Setting s) {
        Supply supply = s.model().supply();
        if (supply == null || !s.scene().asStated()) {
            return List.of();
        }
        String name;
        try {
            name = DutyRun.cavity(s.model(), supply);
        } catch (IllegalArgumentException several) {
            return List.of(); // which one it feeds is asked for where it is run
        }
        CavityState c = s.cavity(name);
        List<Finding> out = new ArrayList<>();
        double most = DutyRun.greatestPressure(supply);
        if (c != null && c.state().pressure() > most * (1 + SLACK)) {
            out.add(Draft.of(SUPPLY, Setting.cavityPlace(name), s.scene())
                    .part("pressure")
                    .what("The supply cannot give the pressure at which " + name + " stands")
                    .unit("Pa")
                    .how("most that it can give: " + DutyRun.source(supply)
                            + (supply.regulator() == null ? "" : ", less the regulator's minimum inlet margin"))
                    .source("balance of pressures [definition]")
                    .mend("a supply of higher pressure, or a lower pressure at " + name)
                    .atLeast(most, c.state().pressure()));
        }
        double flow = 0;
        for (PassageSpec p : s.model().passages()) {
            PassageState state = s.passage(p.name());
            if (state != null && (p.from().equals(name) || p.to().equals(name))) {
                flow += Setting.outflow(state, name);
            }
        }
        double limit = DutyRun.greatestFlow(supply);
        if (flow > limit * (1 + SLACK)) {
            out.add(Draft.of(SUPPLY, Setting.cavityPlace(name), s.scene())
                    .part("flow")
                    .what("The purge takes more from " + name + " than the supply can give")
                    .unit("kg/s")
                    .how("greatest flow of the " + (supply.plant() == null ? "vaporiser" : "main") + " as stated")
                    .source("balance of flows [definition]")
                    .mend("a supply of greater flow, or a smaller metering bore")
                    .atLeast(limit, flow));
        }
        noLiquid(s, supply, out);
        return out;
    }

    /** A tank that stands alone holds no liquid at or above the critical pressure of its gas. */
    private static void noLiquid(Setting s, Supply supply, List<Finding> out) {
        if (supply.liquid() == null || supply.bottles() != null || supply.plant() != null) {
            return;
        }
        String fluid = s.model().streams().stream()
                .filter(d -> d.name().equals(supply.gas()))
                .map(SupplyRules::pure)
                .findFirst()
                .orElse(null);
        PureFluid gas = fluid == null ? null : s.engine().pure(fluid);
        if (gas != null && supply.liquid().pressure() >= gas.criticalPressure()) {
            out.add(Draft.of(SUPPLY, "/supply/liquid", s.scene())
                    .part("liquid")
                    .what("A tank at this pressure holds no boiling " + fluid)
                    .unit("Pa")
                    .how("tank's pressure against the critical pressure of " + fluid)
                    .source("equation of state of " + fluid)
                    .mend("a tank below the critical pressure, or bottles")
                    .atMost(supply.liquid().pressure(), gas.criticalPressure()));
        }
    }

    private static String pure(StreamDefinition stream) {
        return stream instanceof StreamDefinition.Single p ? p.fluid() : null;
    }
}

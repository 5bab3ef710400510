package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.campaign.SupplyFeed;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.DutyPhase;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Whether the stated supply is the purge, and can give the pressure and the flow at which the case is judged: a barrier held by gas that never arrives
 * holds nothing. Speaks up only where it cannot, and only for the case as stated: a fault sets what the supply gives itself.
 */
public final class SupplyRules {
    /** Key of a pressure or a flow that the stated supply cannot give. */
    public static final String SUPPLY = "supply-capability";

    /** Shares of pressure and flow that are no matter: a held main is found to a millionth. */
    private static final double SLACK = 1e-4;

    private SupplyRules() {}

    /**
     * What contradicts itself: a supply whose gas is not the purge, or that feeds a cavity from which no purge comes.
     *
     * @param place JSON Pointer of the statement
     * @param part of the finding's id
     * @param what in words
     * @param mend what would mend it
     * @param verdict falls short where the gas is known to be no purge, else not established
     */
    public record Contradiction(String place, String part, String what, String mend, Verdict verdict) {}

    /**
     * Whether the stated supply feeds the purge with its own gas: the cavity it feeds is a fixed one with inert gas from which the purge
     * comes, and the supply's gas is what stands there, within a part in a thousand of each species.
     *
     * <p>A supply of other gas that is not inert, and one led to a working fluid, a drain or a vent, is no purge: it falls short. Another
     * inert gas may do or not, but nothing here was computed with it: not established.
     *
     * @return what is wrong; empty when nothing is, or no supply is stated
     */
    public static Optional<Contradiction> contradiction(Case model, StreamTable streams) {
        Supply supply = model.supply();
        if (supply == null) {
            return Optional.empty();
        }
        String name;
        try {
            name = DutyRun.cavity(model, supply);
        } catch (IllegalArgumentException unknown) {
            return Optional.of(new Contradiction(
                    "/supply/cavity",
                    "cavity",
                    "Which cavity the supply feeds is not known, and so not whether it can give the purge ("
                            + unknown.getMessage() + ")",
                    "name the fixed cavity from which the purge comes",
                    Verdict.NOT_ESTABLISHED));
        }
        Cavity fed = model.cavity(name);
        if (!BarrierLayout.source(model, fed, streams)) {
            return Optional.of(new Contradiction(
                    "/supply/cavity",
                    "cavity",
                    "The supply is said to feed " + name + ", a " + fed.role().text() + " with " + fed.stream()
                            + ", from which no purge comes",
                    "name the fixed cavity with inert gas from which the purge comes",
                    Verdict.FALLS_SHORT));
        }
        if (streams.same(supply.gas(), fed.stream())) {
            return Optional.empty();
        }
        boolean inert = streams.inert(supply.gas());
        return Optional.of(new Contradiction(
                "/supply/gas",
                "gas",
                "The supply holds " + supply.gas() + ", but the purge in " + name + " is taken to be " + fed.stream()
                        + (inert
                                ? ": with the supply's gas nothing here was computed"
                                : ": the supply's gas is not inert, and no purge"),
                "the gas of the supply and the stream of " + name + " must be one",
                inert || !streams.kinds().containsKey(supply.gas()) ? Verdict.NOT_ESTABLISHED : Verdict.FALLS_SHORT));
    }

    /** Gas, pressure and flow of the cavity that the supply feeds, against what its bottles, main or tank can give. */
    public static List<Finding> judge(Setting s) {
        Supply supply = s.model().supply();
        if (supply == null || !s.scene().asStated()) {
            return List.of();
        }
        List<Finding> out = new ArrayList<>();
        noLiquid(s, supply, out);
        Contradiction wrong = contradiction(s.model(), s.streams()).orElse(null);
        if (wrong != null) {
            out.add(Draft.of(SUPPLY, wrong.place(), s.scene())
                    .part(wrong.part())
                    .what(wrong.what())
                    .how(
                            "the supply as stated against the cavity it feeds; species by mole fraction, within a part in a thousand")
                    .source("purge and supply are one gas [definition]")
                    .mend(wrong.mend())
                    .as(wrong.verdict()));
            return out; // of another gas, or led elsewhere, its pressure says nothing
        }
        String name = DutyRun.cavity(s.model(), supply);
        CavityState c = s.cavity(name);
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
        double flow = drawn(s, name);
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
        return out;
    }

    /**
     * Whether regulator and line give the pressure at which the case is judged: {@code line(regulator(source, m), m)} at the flow m drawn,
     * nothing used up yet, as a run begins. For a case that states its pressures: a study that moves one moves the regulator with it, and is
     * held to {@link #judge} alone.
     *
     * @param phaseOrNull of the duty, whose regulator a run sets; null for a case without a duty
     * @param regulatorFree true where the pressure that the supply holds is chosen, and its regulator set for it
     */
    public static List<Finding> delivered(Setting s, DutyPhase phaseOrNull, boolean regulatorFree) {
        Supply supply = s.model().supply();
        if (supply == null
                || !s.scene().asStated()
                || contradiction(s.model(), s.streams()).isPresent()) {
            return List.of();
        }
        double set = SupplyFeed.setPressure(phaseOrNull, s.model());
        try {
            return delivered(s, supply, regulatorFree && !Double.isNaN(set) ? Double.POSITIVE_INFINITY : set);
        } catch (PropertyException e) {
            return List.of(Draft.of(SUPPLY, "/supply", s.scene())
                    .part("delivered")
                    .what("What the supply gives cannot be computed: a property cannot be given")
                    .how(e.getMessage())
                    .source("range of the property equations")
                    .mend("another property engine, or a state inside the range")
                    .as(Verdict.NOT_ESTABLISHED));
        }
    }

    /** @param setPressure of the regulator, Pa; infinite for one that is set as the purge needs it; NaN without one */
    private static List<Finding> delivered(Setting s, Supply supply, double setPressure) {
        String name = DutyRun.cavity(s.model(), supply);
        CavityState c = s.cavity(name);
        PureFluid gas = gas(s, supply);
        if (c == null || gas == null || c.state().pressure() > DutyRun.greatestPressure(supply) * (1 + SLACK)) {
            return List.of(); // a mixture is asked about where its bottles are emptied
        }
        double flow = drawn(s, name);
        double given = SupplyFeed.delivered(supply, gas, setPressure, flow);
        if (!(c.state().pressure() > given * (1 + SLACK))) {
            return List.of();
        }
        List<String> how = new ArrayList<>();
        if (SupplyFeed.full(supply, gas) != null) {
            how.add(DutyRun.source(supply));
        }
        if (supply.regulator() != null) {
            how.add(
                    Double.isInfinite(setPressure)
                            ? "a regulator that stands wide open"
                            : String.format(
                                    Locale.ROOT, "the regulator set to %.4g MPa, less its droop", setPressure / 1e6));
        }
        if (supply.line() != null) {
            how.add("the line's loss");
        }
        return List.of(Draft.of(SUPPLY, Setting.cavityPlace(name), s.scene())
                .part("delivered")
                .what("The supply as stated does not give the pressure at which " + name + " is judged")
                .unit("Pa")
                .how(String.format(
                        Locale.ROOT, "what arrives at the %.4g g/s drawn: %s", flow * 1e3, String.join(", ", how)))
                .source("balance of pressures [definition]")
                .mend("a higher set pressure of the regulator (a phase that sets only the pressure of " + name
                        + " sets the regulator to it: let it set \"/supply/regulator/set pressure\" too), less droop, a wider line, or a"
                        + " lower pressure at " + name)
                .atLeast(given, c.state().pressure()));
    }

    /** Gas that runs out of a cavity through all its passages, kg/s. */
    private static double drawn(Setting s, String name) {
        double flow = 0;
        for (PassageSpec p : s.model().passages()) {
            PassageState state = s.passage(p.name());
            if (state != null && (p.from().equals(name) || p.to().equals(name))) {
                flow += Setting.outflow(state, name);
            }
        }
        return flow;
    }

    /** The supply's gas where it is one fluid; null for a mixture. */
    private static PureFluid gas(Setting s, Supply supply) {
        return s.model().streams().stream()
                .filter(d -> d.name().equals(supply.gas()))
                .map(SupplyRules::pure)
                .filter(Objects::nonNull)
                .findFirst()
                .map(s.engine()::pure)
                .orElse(null);
    }

    /** A tank that stands alone holds no liquid at or above the critical pressure of its gas. */
    private static void noLiquid(Setting s, Supply supply, List<Finding> out) {
        if (supply.liquid() == null || supply.bottles() != null || supply.plant() != null) {
            return;
        }
        PureFluid gas = gas(s, supply);
        if (gas != null && supply.liquid().pressure() >= gas.criticalPressure()) {
            out.add(Draft.of(SUPPLY, "/supply/liquid", s.scene())
                    .part("liquid")
                    .what("A tank at this pressure holds no boiling " + gas.name())
                    .unit("Pa")
                    .how("tank's pressure against the critical pressure of " + gas.name())
                    .source("equation of state of " + gas.name())
                    .mend("a tank below the critical pressure, or bottles")
                    .atMost(supply.liquid().pressure(), gas.criticalPressure()));
        }
    }

    private static String pure(StreamDefinition stream) {
        return stream instanceof StreamDefinition.Single p ? p.fluid() : null;
    }
}

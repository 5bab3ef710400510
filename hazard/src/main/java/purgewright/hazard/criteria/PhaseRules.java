package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.hazard.barrier.BarrierLayout;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.flammability.Flammability;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** Purge gas that condenses or freezes, a neighbour that freezes another fluid, lines cold enough to liquefy air. */
public final class PhaseRules {
    /** Key of condensing purge gas. */
    public static final String CONDENSES = "purge-condenses";

    /** Key of a neighbour cold enough to freeze another fluid. */
    public static final String NEIGHBOUR = "freezing-neighbour";

    /** Key of lines on which air liquefies. */
    public static final String COLD_LINE = "air-liquefies";

    private static final double NITROGEN = 0.7905;

    private static final double OXYGEN = 0.2095;

    /**
     * First condensate of air.
     *
     * @param temperature K
     * @param oxygen mole fraction in the first drops
     */
    public record AirDew(double temperature, double oxygen) {}

    /**
     * Where air of oxygen and nitrogen begins to condense, by Raoult's law: {@code x_i = y_i p / psat_i(T)} add up to 1. A few tenths of a
     * kelvin from measured dew points.
     *
     * @param pressure Pa, between the triple points' and about 1 MPa
     */
    public static AirDew airDew(PropertyEngine engine, double pressure) {
        PureFluid oxygen = engine.pure("oxygen");
        PureFluid nitrogen = engine.pure("nitrogen");
        double low = 64;
        double high = 120;
        for (int i = 0; i < 60; i++) {
            double t = (low + high) / 2;
            double sum = OXYGEN * pressure / oxygen.saturationPressure(t)
                    + NITROGEN * pressure / nitrogen.saturationPressure(t);
            if (sum > 1) {
                low = t;
            } else {
                high = t;
            }
        }
        return new AirDew(high, OXYGEN * pressure / oxygen.saturationPressure(high));
    }

    /** No air condenses above this at any pressure that surroundings have, K. */
    private static final double WARM = 110;

    /** Below this a purge gas without an equation of state is asked about, K [invented]. */
    private static final double COLD = 250;

    private static final double NOTICEABLE = 0.01;

    private PhaseRules() {}

    /**
     * Partial pressure of each purge gas in a barrier cavity against its vapour pressure at the coldest place it can touch: the cavity
     * itself and the cavities next to it. Helium never condenses here.
     */
    public static List<Finding> condensing(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (String name : s.layout().barrierCavities()) {
            CavityState c = s.cavity(name);
            if (c == null) {
                continue;
            }
            double coldest = c.state().temperature();
            String where = name;
            for (String next : neighbours(s, name)) {
                CavityState n = s.cavity(next);
                if (n != null && n.state().temperature() < coldest) {
                    coldest = n.state().temperature();
                    where = next;
                }
            }
            for (Map.Entry<String, Double> e :
                    Flammability.inerts(c.moleFractions()).entrySet()) {
                if (e.getValue() < NOTICEABLE) {
                    continue;
                }
                PureFluid gas = pure(s, e.getKey());
                if (gas == null && coldest < COLD && !"helium".equals(e.getKey())) {
                    out.add(Draft.of(CONDENSES, Setting.cavityPlace(name), s.scene())
                            .part(e.getKey())
                            .what("Whether " + e.getKey() + " condenses or freezes at " + where + " is not known")
                            .unit("K")
                            .how("the engine has no equation of state of " + e.getKey()
                                    + "; shown is the temperature of " + where)
                            .source("range of the property equations")
                            .mend("a purge gas with known vapour pressure, or measured data for this one")
                            .as(Verdict.NOT_ESTABLISHED, coldest, Double.NaN, Double.NaN));
                }
                if (gas == null || coldest >= gas.criticalTemperature()) {
                    continue;
                }
                double partial = e.getValue() * c.state().pressure();
                Draft draft = Draft.of(CONDENSES, Setting.cavityPlace(name), s.scene())
                        .part(e.getKey())
                        .unit("Pa")
                        .how("partial pressure of " + e.getKey() + " in " + name
                                + " against its vapour pressure at the temperature of " + where)
                        .source("reference equation of state of " + e.getKey() + " [published]")
                        .mend("helium, or a lower barrier pressure, or a warmer neighbour");
                if (coldest < gas.tripleTemperature()) {
                    out.add(draft.what(e.getKey() + " can freeze at " + where)
                            .unit("K")
                            .how("temperature of " + where + " against the triple point of " + e.getKey())
                            .as(Verdict.FALLS_SHORT, coldest, gas.tripleTemperature(), -1));
                } else {
                    out.add(draft.what("Purge gas " + e.getKey() + " against condensing at " + where)
                            .atMost(partial, gas.saturationPressure(coldest)));
                }
            }
        }
        return out;
    }

    /** Equation of state of a species; null for one that the engine has none of. */
    static PureFluid pure(Setting s, String species) {
        try {
            return s.engine().pure(species);
        } catch (PropertyException e) {
            if (e.key() == PropertyException.Key.UNKNOWN_FLUID) {
                return null;
            }
            throw e;
        }
    }

    /** Velocity towards a vent from which on a steady outflow is taken to keep the vent's gas out, m/s [invented]; what the seals are held to. */
    private static final double KEEPS_OUT = 5;

    /**
     * A cavity that holds liquid, or fluid as dense as one, colder than the triple point of what stands next to it, by a passage or through
     * a wall. Falls short; thin where the neighbour is a vent that all open passages between the two flow to at 5 m/s at least, since what
     * would freeze then meets the cold at the mouth alone.
     */
    public static List<Finding> freezingNeighbours(Setting s) {
        Map<String, Finding> out = new LinkedHashMap<>();
        for (CavityState cold : s.solve().cavities().values()) {
            if (!Setting.dense(cold)) {
                continue;
            }
            for (String next : neighbours(s, cold.name())) {
                CavityState other = s.cavity(next);
                if (other == null) {
                    continue;
                }
                for (Map.Entry<String, Double> e : other.moleFractions().entrySet()) {
                    PureFluid fluid = e.getValue() < NOTICEABLE ? null : pure(s, e.getKey());
                    if (fluid == null || cold.state().temperature() >= fluid.tripleTemperature()) {
                        continue;
                    }
                    boolean kept = keptOut(s, cold.name(), next);
                    Draft draft = Draft.of(NEIGHBOUR, Setting.cavityPlace(next), s.scene())
                            .part(cold.name() + ":" + e.getKey())
                            .what(cold.name() + " is cold enough to freeze " + e.getKey() + " in " + next)
                            .unit("K")
                            .how("temperature of the liquid beside it against the triple point of " + e.getKey())
                            .source(
                                    "triple point of " + e.getKey()
                                            + " [published, reference equation of state]; oxygen boils at 90.19 K, methane freezes at 90.69 K")
                            .mend("keep the cold liquid above the triple point, or keep the two apart");
                    Finding f = kept
                            ? draft.mend(
                                            "purge the vent's mouth, or shelter it; keep the outflow up until the cold is gone")
                                    .caution(
                                            "the flow to the vent keeps its gas out from "
                                                    + (int) KEEPS_OUT
                                                    + " m/s on [invented]: ice may grow at the mouth, and comes in when the flow stops")
                                    .as(Verdict.THIN, cold.state().temperature(), fluid.tripleTemperature(), Double.NaN)
                            : draft.atLeast(cold.state().temperature(), fluid.tripleTemperature());
                    out.putIfAbsent(f.id(), f);
                }
            }
        }
        return new ArrayList<>(out.values());
    }

    /** Whether a steady flow keeps a vent's gas away from a cavity: through every open passage between the two, and no wall is one side's. */
    private static boolean keptOut(Setting s, String cavity, String vent) {
        Cavity c = s.model().cavity(cavity);
        Cavity v = s.model().cavity(vent);
        if (v == null || v.role() != Role.VENT || beside(c, vent) || beside(v, cavity)) {
            return false;
        }
        boolean any = false;
        for (PassageSpec p : s.model().passages()) {
            if (p.closed() || !vent.equals(BarrierLayout.other(p, cavity))) {
                continue;
            }
            PassageState state = s.passage(p.name());
            double outward = state == null
                    ? Double.NaN
                    : Math.copySign(state.flow().gapVelocity(), Setting.outflow(state, cavity));
            if (!(outward >= KEEPS_OUT)) {
                return false;
            }
            any = true;
        }
        return any;
    }

    private static boolean beside(Cavity c, String other) {
        return c != null && c.wall() != null && other.equals(c.wall().cavity());
    }

    private static Set<String> neighbours(Setting s, String cavity) {
        Set<String> next = new LinkedHashSet<>();
        for (PassageSpec p : s.model().passages()) {
            String other = BarrierLayout.other(p, cavity);
            if (other != null && !p.closed()) {
                next.add(other);
            }
        }
        for (Cavity c : s.model().cavities()) {
            if (c.wall() != null && c.wall().cavity() != null) {
                if (c.name().equals(cavity)) {
                    next.add(c.wall().cavity());
                } else if (c.wall().cavity().equals(cavity)) {
                    next.add(c.name());
                }
            }
        }
        return next;
    }

    /** Dew point of the surrounding air; the published 82 K and 53 % where the engine does not have its gases. */
    private static AirDew dew(Setting s) {
        return pure(s, "oxygen") == null || pure(s, "nitrogen") == null
                ? new AirDew(82, 0.53)
                : airDew(s.engine(), s.model().surroundings().pressure());
    }

    /** Lines colder than the dew point of the surrounding air (about 82 K): air condenses on them, rich in oxygen. Thin, because insulation is not part of the case. */
    public static List<Finding> coldLines(Setting s) {
        List<Finding> out = new ArrayList<>();
        AirDew dew = null;
        for (PassageSpec spec : s.model().passages()) {
            var state = s.passage(spec.name());
            CavityState up = state == null ? null : s.cavity(state.upstream());
            if (!PassageTypes.are(spec, PassageType::pipe)
                    || up == null
                    || up.state().temperature() >= WARM) {
                continue;
            }
            dew = dew == null ? dew(s) : dew;
            if (up.state().temperature() >= dew.temperature()) {
                continue;
            }
            out.add(Draft.of(COLD_LINE, Setting.passagePlace(spec.name()), s.scene())
                    .what("Air liquefies on the bare line " + spec.name())
                    .unit("K")
                    .how("temperature of what flows in it")
                    .source(
                            "first condensate of air from vapour pressures by Raoult's law [published, reference equations]")
                    .mend("insulate the line, vapour-tight")
                    .caution("the first drops hold " + Math.round(100 * dew.oxygen()) + " mol % oxygen")
                    .as(Verdict.THIN, up.state().temperature(), dew.temperature(), Double.NaN));
        }
        return out;
    }
}

package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.Phase;
import purgewright.fluids.PureFluid;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.flammability.Flammability;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType.SealKind;

/** Oxygen service: particle impact in gas, and compression into a dead end. */
public final class OxygenRules {
    /** Key of the velocity curve. */
    public static final String VELOCITY = "oxygen-velocity";

    /** Key of a dead end filled by oxygen. */
    public static final String DEAD_END = "oxygen-dead-end";

    private static final String CURVE =
            "EIGA Doc 13/20 (CGA G-4.4), sections 4.4.2, 4.4.3, figs. 2, 3, impingement sites [published, transcription]";

    /** Pressure from which the curve applies, Pa. */
    private static final double LOWEST = 0.21e6;

    private static final double HIGHEST = 20e6;

    private OxygenRules() {}

    /**
     * Allowed gas velocity where the flow strikes a wall: 30 m/s to 1.5 MPa, {@code p v = 45 MPa m/s} to 10 MPa, 4.5 m/s to 20 MPa.
     *
     * @param pressure Pa
     * @return m/s; infinite below 0.21 MPa, where the curve does not apply; NaN above 20 MPa
     */
    public static double impingementLimit(double pressure) {
        if (!(pressure <= HIGHEST)) {
            return Double.NaN;
        }
        if (pressure < LOWEST) {
            return Double.POSITIVE_INFINITY;
        }
        if (pressure <= 1.5e6) {
            return 30;
        }
        return pressure <= 10e6 ? 45e6 / pressure : 4.5;
    }

    /**
     * Allowed gas velocity in straight runs: 60 m/s to 1.5 MPa, {@code p v = 80 MPa m/s} to 10 MPa, 8 m/s to 20 MPa. The curve has a
     * step at 1.5 MPa in the source.
     */
    public static double straightLimit(double pressure) {
        if (!(pressure <= HIGHEST)) {
            return Double.NaN;
        }
        if (pressure < LOWEST) {
            return Double.POSITIVE_INFINITY;
        }
        if (pressure <= 1.5e6) {
            return 60;
        }
        return pressure <= 10e6 ? 80e6 / pressure : 8;
    }

    /**
     * Temperature after compression of gas that was at ambient: {@code T1 (p2/p1)^((k-1)/k)}, perfect gas, K.
     *
     * @param temperature before, K
     * @param ratio p2/p1
     * @param k heat-capacity ratio
     */
    public static double compressed(double temperature, double ratio, double k) {
        return temperature * Math.pow(ratio, (k - 1) / k);
    }

    /**
     * Share of the volume from which gas with drops in it is taken for gas: as good as all of it, near its dew point [invented].
     */
    private static final double GAS = 0.99;

    /** Share of the volume below which the flow is liquid with gas in it, which the curve is not for [invented]. */
    private static final double LIQUID = 0.5;

    /**
     * Gas above 35 % oxygen and 0.21 MPa, in every open passage; liquid is not judged by this curve. Where both come, the gas over the
     * liquid is: as gas where it takes up 99 % of the volume; from there down to half, in ducts, what is above the curve is thin, since the
     * curve is published for gas and says nothing of gas full of drops. Liquid oxygen that boils in a seal is not judged by it. Of gas
     * full of drops it is said once, of the case as stated: a fault would only repeat it.
     */
    public static List<Finding> velocity(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (PassageState p : s.solve().passages().values()) {
            CavityState up = s.cavity(p.upstream());
            boolean wet = up != null && up.state().phase() == Phase.TWO_PHASE;
            double gas = up == null || up.state().phase() == Phase.LIQUID ? 0 : wet ? gasVolume(s, up) : 1;
            if (gas < LIQUID
                    || (gas < GAS && (p.kind() != SealKind.DUCT || !s.scene().asStated()))
                    || (!wet && up.state().density() > up.state().fluid().criticalDensity())
                    || Flammability.freeOxygen(FlammabilityRules.gasOf(s, up)) <= ClearanceRules.OXYGEN_SERVICE
                    || up.state().pressure() < LOWEST
                    || Math.abs(p.flow().massFlow()) <= 1e-9 * s.greatestFlow()) {
                continue;
            }
            double limit = impingementLimit(up.state().pressure());
            Draft draft = Draft.of(VELOCITY, Setting.passagePlace(p.name()), s.scene())
                    .what("Velocity of oxygen-rich gas" + (wet ? " over liquid" : "") + " in " + p.name())
                    .unit("m/s")
                    .how(
                            "highest velocity along the passage, expanded to the pressure downstream, against the particle-impact curve at the"
                                    + " upstream pressure"
                                    + (wet
                                            ? String.format(
                                                    Locale.ROOT,
                                                    "; the gas takes up %.3g %% of the volume, and is taken for dry from 99 %% [invented]",
                                                    100 * gas)
                                            : ""))
                    .source(CURVE)
                    .mend(
                            "an exempt material (nickel, copper alloys by the same document), a larger passage, or a lower pressure")
                    .caution(exempt(up.state().pressure()));
            double velocity = highest(p, up, s.cavity(p.upstream().equals(p.from()) ? p.to() : p.from()));
            if (gas < GAS && velocity > limit) {
                out.add(draft.caution(
                                "the curve is published for gas; of gas full of drops of liquid oxygen it says nothing, and nothing better was found; "
                                        + exempt(up.state().pressure()))
                        .as(Verdict.THIN, velocity, limit, Double.NaN));
                continue;
            }
            out.add(
                    Double.isNaN(limit)
                            ? draft.as(Verdict.NOT_ESTABLISHED, velocity, limit, Double.NaN)
                            : draft.atMost(velocity, limit));
        }
        return out;
    }

    private static String exempt(double pressure) {
        return "no velocity limit for metals exempt at this pressure (EIGA Doc 13/20, appendix B [published]): "
                + OxygenMaterials.exemptAt(pressure) + "; this calculation does not know the material";
    }

    /**
     * Share of a two-phase cavity's volume that its gas takes up: {@code 1 - (1 - x) rho / rho_liquid}, with x the gas's share of the mass
     * and the density of the densest liquid of what condenses there. 1, on the safe side, where no liquid's density is known.
     */
    static double gasVolume(Setting s, CavityState c) {
        double liquid = 0;
        double t = c.state().temperature();
        for (Map.Entry<String, Double> e : FlammabilityRules.gasOf(s, c).entrySet()) {
            // What condenses has no greater a share of the gas than of the whole; alone it has all of both.
            boolean condenses = e.getValue() <= c.moleFractions().get(e.getKey()) * (1 + 1e-9);
            PureFluid fluid = condenses ? PhaseRules.pure(s, e.getKey()) : null;
            if (fluid != null && t < fluid.criticalTemperature() && t > fluid.tripleTemperature()) {
                liquid = Math.max(liquid, fluid.atTemperatureQuality(t, 0).density());
            }
        }
        return liquid > 0
                ? Math.max(0, 1 - (1 - c.state().quality()) * c.state().density() / liquid)
                : 1;
    }

    /**
     * Highest velocity along a passage, on the high side: from the lowest along the gap the gas grows as its pressure falls, at constant
     * temperature, at most to the speed of sound upstream.
     */
    private static double highest(PassageState p, CavityState up, CavityState downOrNull) {
        double lowest = Math.abs(p.flow().gapVelocity());
        double ratio = downOrNull == null
                ? 1
                : up.state().pressure() / downOrNull.state().pressure();
        return ratio > 1 ? Math.max(lowest, Math.min(lowest * ratio, up.state().soundSpeed())) : lowest;
    }

    /** A closed passage on a cavity that holds oxygen gas: its dead end heats up when the cavity is pressurised fast. */
    public static List<Finding> deadEnds(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (PassageSpec spec : s.model().passages()) {
            if (!spec.closed()) {
                continue;
            }
            for (String end : List.of(spec.from(), spec.to())) {
                Cavity cavity = s.model().cavity(end);
                CavityState c = s.cavity(end);
                if (cavity == null
                        || c == null
                        || c.state().phase() == Phase.LIQUID
                        || Flammability.freeOxygen(c.moleFractions()) <= ClearanceRules.OXYGEN_SERVICE) {
                    continue;
                }
                double before = s.model().surroundings().temperature();
                double ratio = c.state().pressure() / s.model().surroundings().pressure();
                if (ratio <= 1) {
                    continue;
                }
                double after = compressed(before, ratio, c.state().fluid().idealGasHeatCapacityRatio(before));
                out.add(Draft.of(DEAD_END, Setting.passagePlace(spec.name()), s.scene())
                        .part(end)
                        .what("Oxygen compressed fast into the dead end at " + spec.name())
                        .unit("K")
                        .how("adiabatic compression of perfect gas from the surroundings to the pressure of " + end)
                        .source(s.criteria().origin(Limit.DEAD_END_TEMPERATURE))
                        .mend("open slowly, or no polymer at the dead end")
                        .atMost(after, s.criteria().get(Limit.DEAD_END_TEMPERATURE)));
            }
        }
        return out;
    }
}

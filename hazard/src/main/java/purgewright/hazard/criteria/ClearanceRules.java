package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.fluids.Phase;
import purgewright.fluids.PureFluid;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.flammability.Flammability;
import purgewright.sealflow.Notice;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.PassageType;
import purgewright.sealflow.passage.PassageTypes;

/** Least running clearance, and speed and pressure of seals that rub by design. */
public final class ClearanceRules {
    /** Key of the clearance criterion. */
    public static final String CLEARANCE = "least-clearance";

    /** Key of the surface speed of a rubbing seal. */
    public static final String RUBBING = "rubbing-speed";

    /** Key of pressure over a segmented ring. */
    public static final String SEGMENTED = "segmented-pressure";

    /** Oxygen content from which a gas counts as oxygen service, mole fraction. Oxygen velocity limits do not apply below it. */
    static final double OXYGEN_SERVICE = 0.35;

    /** Key of load times speed of a face in contact. */
    public static final String CONTACT = "face-contact";

    /** 1 psi ft/s in Pa m/s. */
    private static final double PSI_FT_PER_S = 6894.757 * 0.3048;

    private ClearanceRules() {}

    /** {@code least clearance >= max(contact limit, share of cold)}. */
    public static List<Finding> clearance(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (PassageState p : s.solve().passages().values()) {
            PassageSpec spec = s.model().passage(p.name());
            if (p.gap() == null || spec == null || Double.isNaN(p.gap().least())) {
                continue;
            }
            double absolute = s.criteria().get(Limit.CONTACT_LIMIT);
            double share = s.criteria().get(Limit.CONTACT_LIMIT_SHARE) * spec.clearance();
            boolean byShare = share > absolute;
            double limit = byShare ? share : absolute;
            // A film or ring that runs at a few micrometres by design carries its own limit.
            if (spec.clearance() <= absolute && p.gap().contactLimit() < limit) {
                limit = p.gap().contactLimit();
            }
            boolean oxygen = oxygenService(s, p);
            out.add(Draft.of(CLEARANCE, Setting.passagePlace(p.name()), s.scene())
                    .what(
                            p.gap().least() >= limit
                                    ? "Least running clearance of " + p.name()
                                    : p.name() + " rubs" + (oxygen ? " in oxygen" : ""))
                    .unit("m")
                    .how("cold clearance plus growth, less whirl, bearing play, offset, run-out and tolerance")
                    .source(s.criteria().origin(byShare ? Limit.CONTACT_LIMIT_SHARE : Limit.CONTACT_LIMIT))
                    .mend("more cold clearance, less whirl or play, or a rotor that grows less")
                    .caution(oxygen ? "no metal-to-metal rub in oxygen [common practice]" : "")
                    .atLeast(p.gap().least(), limit));
        }
        return out;
    }

    /** Seals that rub by design: surface speed, where the rotor turns, and, for segmented rings, pressure difference. */
    public static List<Finding> rubbing(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (PassageState p : s.solve().passages().values()) {
            PassageSpec spec = s.model().passage(p.name());
            if (spec == null
                    || !PassageTypes.find(spec.type()).map(PassageType::rubs).orElse(false)) {
                continue;
            }
            boolean slow = liquidOxygenOrKerosene(s, p);
            Limit limit = slow ? Limit.OXYGEN_RUBBING_SPEED : Limit.RUBBING_SPEED;
            // Nothing rubs at rest: a speed of 0 is no pass. Where no phase turns, the cautions say so.
            if (p.surfaceSpeed() != 0) {
                out.add(Draft.of(RUBBING, Setting.passagePlace(p.name()), s.scene())
                        .what("Surface speed of the rubbing seal " + p.name())
                        .unit("m/s")
                        .how("rotor surface at the seal")
                        .source(s.criteria().origin(limit))
                        .mend("a clearance or film seal, or a smaller radius")
                        .caution("a success envelope, not failure data")
                        .atMost(p.surfaceSpeed(), s.criteria().get(limit)));
            }
            if (PassageTypes.are(spec, PassageType::segmented)) {
                out.add(Draft.of(SEGMENTED, Setting.passagePlace(p.name()), s.scene())
                        .what("Pressure difference over the segmented ring " + p.name())
                        .unit(Dimension.PRESSURE_DIFFERENCE.symbol())
                        .how("difference of the pressures at the seal")
                        .source(s.criteria().origin(Limit.SEGMENTED_PRESSURE))
                        .mend("a floating ring, or a lower pressure difference")
                        .atMost(
                                Math.abs(p.fromState().pressure() - p.toState().pressure()),
                                s.criteria().get(Limit.SEGMENTED_PRESSURE)));
            }
        }
        return out;
    }

    /**
     * Faces found in contact: unit load x surface speed against the success envelope for 3 h life, Pa m/s. Liquid oxygen 52.5 MPa m/s,
     * liquid hydrogen 105, gaseous hydrogen 42, kerosene 52.5, hot gas of hydrogen and water 21 (1 psi ft/s = 2101.5 Pa m/s). Other
     * fluids are not in the source: not established.
     */
    public static List<Finding> contact(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (Notice n : s.solve().notices()) {
            if (n.key() != Notice.Key.ESTIMATE
                    || !"PV, Pa m/s".equals(n.values().get("constant"))) {
                continue;
            }
            PassageState p = s.passage(n.place().substring(n.place().lastIndexOf('/') + 1));
            if (number(n.values().get("value")) == 0) {
                continue; // at rest
            }
            CavityState up = p == null ? null : s.cavity(p.upstream());
            double limit = up == null
                    ? Double.NaN
                    : contactLimit(up.moleFractions(), up.state().phase());
            out.add(Draft.of(CONTACT, n.place(), s.scene())
                    .what("Unit load times surface speed of the face in contact "
                            + n.place().substring(n.place().lastIndexOf('/') + 1))
                    .unit("Pa m/s")
                    .how("as the face's force balance gives it, limit of the fluid upstream")
                    .source("NASA SP-8121, figs. 57-59, pp. 105-110, 3 h life [published, transcription]")
                    .mend("less spring load, a balance ratio that opens the face, or a film seal")
                    .caution("a success envelope, not failure data")
                    .atMost(number(n.values().get("value")), limit));
        }
        return out;
    }

    /**
     * Largest unit load times surface speed of faces in contact, Pa m/s, for 3 h of life (NASA SP-8121, figs. 57-59 [transcription]).
     *
     * @param moleFractions of the fluid upstream, by species
     * @return the limit; NaN for a fluid that the source does not have
     */
    public static double contactLimit(Map<String, Double> moleFractions, Phase phase) {
        boolean liquid = phase == Phase.LIQUID;
        Map<String, Double> fuels = Flammability.fuels(moleFractions);
        if (Flammability.freeOxygen(moleFractions) > 0.9 && liquid) {
            return 25_000 * PSI_FT_PER_S;
        }
        if (fuels.getOrDefault("n-dodecane", 0.0) + fuels.getOrDefault("kerosene", 0.0) > 0.9 && liquid) {
            return 25_000 * PSI_FT_PER_S;
        }
        double hydrogen = fuels.getOrDefault("hydrogen", 0.0);
        if (hydrogen > 0.95) {
            return (liquid ? 50_000 : 20_000) * PSI_FT_PER_S;
        }
        double water = Flammability.inerts(moleFractions).getOrDefault("water", 0.0);
        return hydrogen + water > 0.95 && !liquid ? 10_000 * PSI_FT_PER_S : Double.NaN;
    }

    /** Rubs that the solver reported for passages whose clearance is not in the result. */
    public static List<Finding> rubNotices(Setting s) {
        List<Finding> out = new ArrayList<>();
        s.solve().notices().stream()
                .filter(n -> n.key() == Notice.Key.RUB)
                .filter(n -> {
                    PassageState p = s.passage(n.place().substring(n.place().lastIndexOf('/') + 1));
                    return p == null || p.gap() == null;
                })
                .forEach(n -> out.add(Draft.of(CLEARANCE, n.place(), s.scene())
                        .what("Rub at " + n.place().substring(n.place().lastIndexOf('/') + 1))
                        .unit("m")
                        .how("as reported by the clearance model")
                        .source(s.criteria().origin(Limit.CONTACT_LIMIT))
                        .mend("more cold clearance, less whirl or play, or a rotor that grows less")
                        .as(
                                Verdict.FALLS_SHORT,
                                number(n.values().get("least")),
                                number(n.values().get("limit")),
                                -1)));
        return out;
    }

    static double number(Object value) {
        return value instanceof Number n ? n.doubleValue() : Double.NaN;
    }

    static boolean oxygenService(Setting s, PassageState p) {
        return Flammability.freeOxygen(fractions(s, p.from())) > OXYGEN_SERVICE
                || Flammability.freeOxygen(fractions(s, p.to())) > OXYGEN_SERVICE;
    }

    /**
     * Whether a species is liquid in part in a cavity that holds liquid and gas: {@code y p >= psat(T)}, y its mole fraction in the gas over
     * the liquid. However little there is, it may be what wets a seal.
     */
    private static boolean condensed(Setting s, CavityState c, String species) {
        if (!(c.moleFractions().getOrDefault(species, 0.0) > 0)) {
            return false;
        }
        PureFluid fluid = PhaseRules.pure(s, species);
        double temperature = c.state().temperature();
        if (fluid == null || temperature >= fluid.criticalTemperature()) {
            return fluid == null;
        }
        double pressure = c.state().pressure();
        double gas = FlammabilityRules.gas(s, c.moleFractions(), temperature, pressure)
                .getOrDefault(species, 0.0);
        double vapour = fluid.saturationPressure(Math.max(temperature, fluid.tripleTemperature()));
        // A thousandth: a pure fluid in its dome stands on its vapour pressure by another equation.
        return gas * pressure >= 0.999 * vapour;
    }

    /** Whether liquid oxygen or kerosene is on one side of a seal, alone or beside gas. */
    private static boolean liquidOxygenOrKerosene(Setting s, PassageState p) {
        for (String end : List.of(p.from(), p.to())) {
            CavityState c = s.cavity(end);
            if (c == null) {
                continue;
            }
            Map<String, Double> x = c.moleFractions();
            boolean wets = false;
            if (c.state().phase() == Phase.TWO_PHASE) {
                wets = condensed(s, c, "oxygen") || condensed(s, c, "n-dodecane") || condensed(s, c, "kerosene");
            } else if (c.state().phase() == Phase.LIQUID) {
                wets = Flammability.freeOxygen(x) > OXYGEN_SERVICE
                        || Flammability.fuels(x).getOrDefault("n-dodecane", 0.0) > 0.5
                        || Flammability.fuels(x).getOrDefault("kerosene", 0.0) > 0.5;
            }
            if (wets) {
                return true;
            }
        }
        return false;
    }

    static Map<String, Double> fractions(Setting s, String cavity) {
        CavityState c = s.cavity(cavity);
        return c == null ? Map.of() : c.moleFractions();
    }
}

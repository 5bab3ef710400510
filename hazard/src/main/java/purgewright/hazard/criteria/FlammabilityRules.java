package purgewright.hazard.criteria;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.fluids.Phase;
import purgewright.fluids.PureFluid;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.barrier.StreamKind;
import purgewright.hazard.barrier.StreamTable;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.flammability.Flame;
import purgewright.hazard.flammability.Flammability;
import purgewright.hazard.flammability.LimitTable;
import purgewright.hazard.flammability.LimitTable.Quantity;
import purgewright.hazard.flammability.LimitTable.Value;
import purgewright.hazard.flammability.Species;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.Role;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.PassageState;

/**
 * Whether what is in a cavity, or leaves by a vent, can burn.
 *
 * <p>In this order. No fuel and oxygen together: holds. Liquid oxygen with a hydrocarbon: no convective path and at most the trace
 * limit, else falls short. Hotter than autoignition less the stated distance: the rise when all that got in burns, and no convective
 * path. Else the best of three: the rise when all burns (needs no table); near 25 C and 1 atm the tables (fuel at most a share of the
 * lower limit, or oxygen at most a share of the limiting oxygen); elsewhere the flame-temperature rule, which allows the same share
 * of the rise that the published limits have. With helium or argon as the main inert the limiting oxygen is not tabled: not
 * established, with a lower bound shown. What none of them covers is not established; it is never called safe.
 */
public final class FlammabilityRules {
    /** Key of the finding of a cavity. */
    public static final String CAVITY = "flammability";

    /** Key of a mist of a fuel below its flash point. */
    public static final String MIST = "mist";

    /** Key of the finding of vented gas before it meets the air. */
    public static final String VENT = "vented-gas";

    /** Mole fraction below which fuel or oxygen counts as absent: what equilibrium leaves in drive gas [invented]. */
    private static final double ABSENT = 1e-7;

    /** Temperatures and pressures at which room-temperature tables are used, with the correction for temperature. */
    private static final double COLDEST = 273.15;

    private static final double HOTTEST = 473.15;
    private static final double LOWEST_PRESSURE = 80e3;
    private static final double HIGHEST_PRESSURE = 120e3;
    private static final double REFERENCE = 298.15;

    /** Atomic masses of what mists are made of, kg/mol (IUPAC, rounded) [published]. */
    private static final Map<String, Double> ATOMS =
            Map.of("C", 12.011e-3, "H", 1.008e-3, "O", 15.999e-3, "N", 14.007e-3, "S", 32.06e-3);

    private FlammabilityRules() {}

    /**
     * What is judged: a mixture at a state.
     *
     * @param convective streams of the scarcer kind arrive along the flow, not only by diffusion
     */
    record Mixture(
            Map<String, Double> moleFractions,
            double temperature,
            double pressure,
            double molarHeatCapacity,
            boolean liquid,
            boolean convective) {}

    /** Symbol of a temperature rise. */
    private static final String RISE = Dimension.TEMPERATURE_DIFFERENCE.symbol();

    /**
     * One rule's answer.
     *
     * @param margin NaN when the rule cannot tell
     */
    record Answer(double value, double limit, double margin, String unit, String how, String source, String caution) {}

    /** A rule that has nothing to say about this mixture, unlike one that lacks data. */
    private static final Answer NOT_APPLICABLE = new Answer(Double.NaN, Double.NaN, Double.NaN, "1", "", "", "");

    private static boolean silent(Answer a) {
        return a != NOT_APPLICABLE && Double.isNaN(a.margin());
    }

    /**
     * Every solved cavity, and every stated one whose own stream holds fuel and oxygen together; what a burner gives is in equilibrium
     * with itself and left out.
     */
    public static List<Finding> cavities(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (CavityState c : s.solve().cavities().values()) {
            if (c.fixed() && !statedMixture(s, c)) {
                continue;
            }
            Mixture m = new Mixture(
                    c.moleFractions(),
                    c.state().temperature(),
                    c.state().pressure(),
                    c.state().cp() * molarMass(c),
                    c.state().phase() == Phase.LIQUID || c.state().phase() == Phase.TWO_PHASE,
                    !c.fixed() && convective(s, c));
            boolean twoPhase = c.state().phase() == Phase.TWO_PHASE;
            out.add(finding(
                    s,
                    Draft.of(CAVITY, Setting.cavityPlace(c.name()), s.scene()),
                    c.name(),
                    m,
                    twoPhase ? over(m, gasOf(s, c)) : null));
        }
        return out;
    }

    private static boolean statedMixture(Setting s, CavityState c) {
        Cavity cavity = s.model().cavity(c.name());
        if (cavity == null
                || cavity.role() == Role.VENT
                || s.streams().burners().containsKey(cavity.stream())) {
            return false;
        }
        double fuel = Flammability.fuels(c.moleFractions()).values().stream()
                .mapToDouble(Double::doubleValue)
                .sum();
        return Math.min(fuel, Flammability.freeOxygen(c.moleFractions())) > ABSENT;
    }

    /**
     * A fuel below its flash point in a gas space with oxygen: what is not vapour may be a mist, which burns below the vapour's limits.
     * Oxygen below the allowed share of the fuel's limiting oxygen holds; else the fuel's whole mass by volume is thin up to the mist
     * limit and falls short above it.
     */
    public static List<Finding> mists(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (CavityState c : s.solve().cavities().values()) {
            if (c.fixed() || c.state().phase() == Phase.LIQUID) {
                continue;
            }
            // What burns is the gas between the drops: a little air over much liquid is air all the same.
            Map<String, Double> gas = gasOf(s, c);
            double oxygen = Flammability.freeOxygen(gas);
            if (oxygen <= ABSENT) {
                continue;
            }
            for (Map.Entry<String, Double> f :
                    Flammability.fuels(c.moleFractions()).entrySet()) {
                double flash =
                        LimitTable.value(f.getKey(), Quantity.FLASH_POINT_C).si();
                if (f.getValue() <= ABSENT || !(c.state().temperature() < flash)) {
                    continue;
                }
                out.add(mist(s, c, f.getKey(), f.getValue(), gas));
            }
        }
        return out;
    }

    private static Finding mist(Setting s, CavityState c, String fuel, double share, Map<String, Double> gas) {
        double oxygen = Flammability.freeOxygen(gas);
        double mass = c.state().density() * share * mass(fuel) / molarMass(c);
        double limit = s.criteria().get(Limit.MIST);
        Value limiting = LimitTable.limitingOxygen(fuel);
        double bound = limiting.si();
        bound = Flammability.limitingOxygenBound(bound, Species.find(fuel).oxygenDemand(), inertCoefficient(gas));
        boolean inerted = oxygen <= allowed(bound, s.criteria());
        Draft draft = Draft.of(MIST, Setting.cavityPlace(c.name()), s.scene())
                .part(fuel)
                .what(fuel + " below its flash point in the gas of " + c.name()
                        + (inerted ? ", inerted" : ": a mist burns all the same"))
                .unit("kg/m3")
                .how("all of the fuel by volume, whatever part of it is vapour"
                        + (inerted ? "; oxygen is below the allowed share of the limiting oxygen of its vapour" : ""))
                .source(s.criteria().origin(Limit.MIST))
                .mend(
                        "keep oxygen out, or keep the fuel's mist out by a slinger or a separator; a warmer cavity does not help")
                .caution("limits of mists depend on the size of the drops");
        if (inerted) {
            return draft.as(Verdict.HOLDS, mass, limit, Double.NaN);
        }
        return mass > limit
                ? draft.as(Verdict.FALLS_SHORT, mass, limit, Draft.marginBelow(mass, limit))
                : draft.as(Verdict.THIN, mass, limit, Draft.marginBelow(mass, limit));
    }

    /** Composition of the gas in a cavity. */
    static Map<String, Double> gasOf(Setting s, CavityState c) {
        return c.state().phase() == Phase.TWO_PHASE
                ? gas(s, c.moleFractions(), c.state().temperature(), c.state().pressure())
                : c.moleFractions();
    }

    /**
     * Composition of the gas over a liquid, by the same rule as the mixtures': a component is liquid in part where its share of the
     * pressure would pass its vapour pressure, and then has that in the gas; the rest of the pressure belongs to the others.
     */
    static Map<String, Double> gas(Setting s, Map<String, Double> moleFractions, double temperature, double pressure) {
        Map<String, Double> saturated = new LinkedHashMap<>();
        for (boolean changed = true; changed; ) {
            changed = false;
            double left = 1;
            double others = 0;
            for (Map.Entry<String, Double> e : moleFractions.entrySet()) {
                if (saturated.containsKey(e.getKey())) {
                    left -= saturated.get(e.getKey()) / pressure;
                } else {
                    others += e.getValue();
                }
            }
            for (Map.Entry<String, Double> e : moleFractions.entrySet()) {
                PureFluid fluid = saturated.containsKey(e.getKey()) ? null : PhaseRules.pure(s, e.getKey());
                if (fluid == null || temperature >= fluid.criticalTemperature()) {
                    continue;
                }
                double vapour = fluid.saturationPressure(Math.max(temperature, fluid.tripleTemperature()));
                if (e.getValue() / others * Math.max(0, left) * pressure > vapour) {
                    saturated.put(e.getKey(), vapour);
                    changed = true;
                    break;
                }
            }
        }
        Map<String, Double> out = new LinkedHashMap<>();
        double sum = 0;
        for (double p : saturated.values()) {
            sum += p / pressure;
        }
        double free = moleFractions.entrySet().stream()
                .filter(e -> !saturated.containsKey(e.getKey()))
                .mapToDouble(Map.Entry::getValue)
                .sum();
        double left = free > 0 ? Math.max(0, 1 - sum) : 0;
        double scale = sum + left;
        moleFractions.forEach((name, x) -> out.put(
                name, (saturated.containsKey(name) ? saturated.get(name) / pressure : x / free * left) / scale));
        return out;
    }

    /** Molar mass from the elements, kg/mol. */
    private static double mass(String species) {
        double sum = 0;
        for (Map.Entry<String, Double> e : Species.find(species).elements().entrySet()) {
            sum += e.getValue() * ATOMS.getOrDefault(e.getKey(), Double.NaN);
        }
        return sum;
    }

    /** Gas that leaves by each vent, before it meets the air; and what it becomes in the air, as a caution. */
    public static List<Finding> vents(Setting s) {
        List<Finding> out = new ArrayList<>();
        for (Cavity vent : s.model().cavities()) {
            if (vent.role() != Role.VENT) {
                continue;
            }
            Map<String, Double> moles = new LinkedHashMap<>();
            double total = 0;
            double heat = 0;
            double temperature = 0;
            boolean liquid = false;
            for (PassageState p : s.solve().passages().values()) {
                boolean to = p.to().equals(vent.name());
                CavityState from = to ? s.cavity(p.from()) : p.from().equals(vent.name()) ? s.cavity(p.to()) : null;
                double in = to ? p.flow().massFlow() : -p.flow().massFlow();
                if (from == null || in <= 0) {
                    continue;
                }
                double n = in / molarMass(from);
                from.moleFractions().forEach((k, x) -> moles.merge(k, n * x, Double::sum));
                total += n;
                heat += n * from.state().cp() * molarMass(from);
                temperature += n * from.state().temperature();
                liquid |= from.state().phase() == Phase.LIQUID || from.state().phase() == Phase.TWO_PHASE;
            }
            if (total <= 0) {
                continue;
            }
            double sum = total;
            moles.replaceAll((k, n) -> n / sum);
            Mixture m = new Mixture(moles, temperature / total, vent.pressure(), heat / total, liquid, true);
            Draft draft = Draft.of(VENT, Setting.cavityPlace(vent.name()), s.scene());
            Map<String, Double> gas = liquid ? gas(s, moles, temperature / total, vent.pressure()) : moles;
            List<String> met = CountRules.meet(s, vent);
            Finding f = !met.isEmpty() && met.get(0).equals(vent.stream())
                    ? draft.what("The gas that leaves by " + vent.name() + " runs into " + vent.stream())
                            .how("what stands there reacts with it; the mixtures that the two form are not computed")
                            .source("what the case says stands in the vent [stated by the user]")
                            .mend("a vent of its own, to where nothing stands that it reacts with")
                            .as(Verdict.NOT_ESTABLISHED)
                    : finding(s, draft, "the gas that leaves by " + vent.name(), m, liquid ? over(m, gas) : null);
            String plume = plume(moles, temperature / total, vent, s);
            out.add(plume.isEmpty() ? f : f.withCaution(f.caution().isEmpty() ? plume : f.caution() + "; " + plume));
        }
        return out;
    }

    /** What the vented gas does in air, in words; empty when it does nothing. Where no air stands in the vent that is not asked. */
    private static String plume(Map<String, Double> x, double temperature, Cavity vent, Setting s) {
        Map<String, Double> fuels = Flammability.fuels(x);
        double fuel = fuels.values().stream().mapToDouble(Double::doubleValue).sum();
        double oxygen = Flammability.freeOxygen(x);
        if (oxygen > StreamTable.ENRICHED && oxygen > Flammability.oxygenTaken(fuels)) {
            return "vents gas richer in oxygen than 23.5 %: keep clear of fuels and ignition (29 CFR 1910.146 [published])";
        }
        if (fuel < ABSENT) {
            return "";
        }
        if (!s.streams().air(vent.stream())) {
            return "holds " + vent.stream()
                    + ", not air: what becomes of the vented gas beyond it is outside this calculation";
        }
        double autoignition = autoignition(fuels);
        if (temperature > autoignition - s.criteria().get(Limit.AUTOIGNITION_DISTANCE)) {
            return "the vented gas burns where it meets the air; normal for a hot fuel vent, the place must suit";
        }
        double index = Flammability.airDilutionIndex(fuels, Flammability.inerts(x));
        if (index <= 1) {
            return "no dilution with air makes the vented gas flammable (ISO 10156:2010 [published, value recalled from memory])";
        }
        return "the vented gas "
                + (Double.isNaN(index) ? "may form" : "forms")
                + " a flammable cloud with air; normal for a fuel vent, its place and a burner are outside this calculation";
    }

    /** The gas over a mixture's liquid, with the least heat capacity that such a gas can have. */
    private static Mixture over(Mixture m, Map<String, Double> gas) {
        return new Mixture(gas, m.temperature(), m.pressure(), Double.NaN, false, m.convective());
    }

    /** Worse first: not known counts between burning and not. */
    private static boolean worse(Answer a, Answer b) {
        return Draft.verdict(a.margin()).compareTo(Draft.verdict(b.margin())) < 0
                || (Draft.verdict(a.margin()) == Draft.verdict(b.margin()) && a.margin() < b.margin());
    }

    /**
     * @param gasOrNull what stands over the liquid, judged too: the worse of the two counts
     */
    private static Finding finding(Setting s, Draft draft, String name, Mixture mixture, Mixture gasOrNull) {
        Mixture m = mixture;
        Answer a = assess(m, s.criteria());
        Answer over = gasOrNull == null ? a : assess(gasOrNull, s.criteria());
        if (worse(over, a)) {
            m = gasOrNull;
            a = new Answer(
                    over.value(),
                    over.limit(),
                    over.margin(),
                    over.unit(),
                    "the gas over the liquid: " + over.how(),
                    over.source(),
                    over.caution());
        }
        String verb = a.margin() < 0
                ? "can burn or heat up too much"
                : Double.isNaN(a.margin()) ? "is not covered by data" : "cannot burn";
        return draft.what("Mixture in " + name + " " + verb)
                .unit(a.unit())
                .how(a.how())
                .source(a.source())
                .caution(a.margin() < 0 ? joined(a.caution(), detonable(m.moleFractions())) : a.caution())
                .mend("keep the scarcer of fuel and oxygen out, or dilute with more purge gas")
                .judged(a.value(), a.limit(), a.margin());
    }

    private static String joined(String a, String b) {
        return a.isEmpty() ? b : b.isEmpty() ? a : a + "; " + b;
    }

    /** Said beside a mixture that burns: it lies within published limits of detonation, in air or in oxygen; empty otherwise. */
    static String detonable(Map<String, Double> x) {
        double oxygen = Flammability.freeOxygen(x);
        for (Map.Entry<String, Double> f : Flammability.fuels(x).entrySet()) {
            double inAir = f.getValue() / (f.getValue() + oxygen / Flammability.OXYGEN_IN_AIR);
            double inOxygen = f.getValue() / (f.getValue() + oxygen);
            boolean diluted = 1 - oxygen - f.getValue() > 0.5 * oxygen;
            double low = LimitTable.value(
                            f.getKey(), diluted ? Quantity.DETONABLE_LOW_AIR : Quantity.DETONABLE_LOW_OXYGEN)
                    .si();
            double high = LimitTable.value(
                            f.getKey(), diluted ? Quantity.DETONABLE_HIGH_AIR : Quantity.DETONABLE_HIGH_OXYGEN)
                    .si();
            double share = diluted ? inAir : inOxygen;
            if (share >= low && share <= high && oxygen > 0.15 * (1 - f.getValue())) {
                return "within published limits of detonation of " + f.getKey() + " in " + (diluted ? "air" : "oxygen")
                        + "; they depend on confinement and are no design limit";
            }
        }
        return "";
    }

    /** Judges a mixture. */
    static Answer assess(Mixture m, Criteria criteria) {
        Map<String, Double> fuels = Flammability.fuels(m.moleFractions());
        double fuel = fuels.values().stream().mapToDouble(Double::doubleValue).sum();
        double oxygen = Flammability.freeOxygen(m.moleFractions());
        for (Map.Entry<String, Double> e : m.moleFractions().entrySet()) {
            if (Double.isNaN(e.getValue())) {
                return unknown("the share of " + e.getKey() + " is not known");
            }
            if (e.getValue() > ABSENT && Species.find(e.getKey()) == null) {
                return unknown("elements of " + e.getKey() + " are not known");
            }
        }
        if (!(fuel >= 0) || !(oxygen >= 0) || !(m.temperature() > 0) || !(m.pressure() > 0)) {
            return unknown("the mixture's composition or state is not known");
        }
        if (Math.min(fuel, oxygen) <= ABSENT) {
            return new Answer(
                    Math.min(fuel, oxygen),
                    ABSENT,
                    1 - Math.min(fuel, oxygen) / ABSENT < Draft.THIN_MARGIN ? Draft.THIN_MARGIN : 1,
                    "1",
                    "mole fraction of the scarcer of fuel and free oxygen",
                    "absent below one in ten million [invented]",
                    "");
        }
        boolean hydrocarbon =
                fuels.keySet().stream().anyMatch(f -> Species.find(f).hydrocarbon());
        if (m.liquid() && hydrocarbon && oxygen > Flammability.oxygenTaken(fuels) && m.temperature() < 154.6) {
            double limit = criteria.get(Limit.LIQUID_OXYGEN_TRACE);
            double margin =
                    m.convective() ? Math.min(-1e-9, Draft.marginBelow(fuel, limit)) : Draft.marginBelow(fuel, limit);
            return new Answer(
                    fuel,
                    limit,
                    margin,
                    "1",
                    m.convective()
                            ? "hydrocarbon reaches liquid oxygen along the flow"
                            : "mole fraction of hydrocarbon with liquid oxygen",
                    criteria.origin(Limit.LIQUID_OXYGEN_TRACE),
                    "hydrocarbon in liquid oxygen can explode by shock");
        }
        Answer rise = rise(m, criteria);
        double autoignition = autoignition(fuels);
        if (Double.isNaN(autoignition) || m.temperature() > autoignition - criteria.get(Limit.AUTOIGNITION_DISTANCE)) {
            if (Double.isNaN(autoignition)) {
                return better(rise, unknown("autoignition of " + String.join(", ", fuels.keySet()) + " is not tabled"));
            }
            return m.convective()
                    ? new Answer(
                            rise.value(),
                            rise.limit(),
                            Math.min(-1e-9, rise.margin()),
                            RISE,
                            "hot: the scarcer of fuel and oxygen arrives along the flow; " + rise.how(),
                            rise.source(),
                            "hotter than autoignition less the stated distance: no table applies")
                    : rise;
        }
        Answer best = rise;
        boolean tables = !m.liquid()
                && m.temperature() >= COLDEST
                && m.temperature() <= HOTTEST
                && m.pressure() >= LOWEST_PRESSURE
                && m.pressure() <= HIGHEST_PRESSURE;
        Answer lean = tables ? lean(m, fuels, fuel, criteria) : leanFlame(m, fuels, criteria, oxygen);
        Answer rich = tables ? limitingOxygen(m, fuels, oxygen, criteria) : richFlame(m, fuels, criteria, oxygen);
        best = better(best, lean);
        best = better(best, rich);
        if (!(best.margin() >= 0) && (silent(lean) || silent(rich)) && !surely(fuels, fuel, oxygen)) {
            // A rule that could have spoken for it has no data: the room-temperature tables must both be exceeded to
            // call it flammable.
            Answer silent = silent(rich) ? rich : lean;
            return new Answer(
                    silent.value(),
                    silent.limit(),
                    Double.NaN,
                    silent.unit(),
                    silent.how(),
                    silent.source(),
                    silent.caution());
        }
        String mist = mist(m, fuels);
        return mist.isEmpty()
                ? best
                : new Answer(best.value(), best.limit(), best.margin(), best.unit(), best.how(), best.source(), mist);
    }

    /** Both fuel above its lower limit and oxygen above its nitrogen limit: flammable whatever the inert's coefficient (at most 1). */
    private static boolean surely(Map<String, Double> fuels, double fuel, double oxygen) {
        double lower = Flammability.leChatelier(fuels, limits(fuels, "lower"));
        double limiting = limits(fuels, "oxygen").values().stream()
                .mapToDouble(Double::doubleValue)
                .min()
                .orElse(Double.NaN);
        return fuel > lower && oxygen > limiting;
    }

    private static Answer better(Answer a, Answer b) {
        if (Double.isNaN(b.margin())) {
            return a;
        }
        return Double.isNaN(a.margin()) || b.margin() > a.margin() ? b : a;
    }

    private static Answer unknown(String why) {
        return new Answer(Double.NaN, Double.NaN, Double.NaN, "1", why, "no data", "");
    }

    /** Rise beyond which dissociation takes up so much heat that complete combustion gives no temperature, K [common practice, no source]. */
    private static final double DISSOCIATES = 3000;

    /** Temperature rise when all burns. */
    private static Answer rise(Mixture m, Criteria criteria) {
        double rise = Flammability.temperatureRise(m.moleFractions(), m.molarHeatCapacity());
        double limit = criteria.get(Limit.INGRESS_TEMPERATURE_RISE);
        return new Answer(
                rise,
                limit,
                Draft.marginBelow(rise, limit),
                RISE,
                "temperature rise when the scarcer of fuel and oxygen burns completely, without dissociation"
                        + (rise > DISSOCIATES ? ", which keeps a true flame far below such a rise" : ""),
                criteria.origin(Limit.INGRESS_TEMPERATURE_RISE),
                "");
    }

    /** Fuel against a share of the lower limit, corrected for temperature. */
    private static Answer lean(Mixture m, Map<String, Double> fuels, double fuel, Criteria criteria) {
        Map<String, Double> limits = new LinkedHashMap<>();
        StringBuilder notes = new StringBuilder();
        for (String f : fuels.keySet()) {
            Value v = LimitTable.lowerLimit(f);
            double heat = Species.find(f).heat();
            limits.put(
                    f, m.temperature() > REFERENCE ? Flammability.lowerLimitAt(v.si(), m.temperature(), heat) : v.si());
            notes.append(notes.isEmpty() ? "" : "; ").append(f).append(": ").append(v.note());
        }
        double lower = Flammability.leChatelier(fuels, limits);
        if (Double.isNaN(lower)) {
            return unknown("lower limit of one of " + String.join(", ", fuels.keySet()) + " is not tabled");
        }
        double limit = criteria.get(Limit.FUEL_LIMIT_SHARE) * lower;
        return new Answer(
                fuel,
                limit,
                Draft.marginBelow(fuel, limit),
                "1",
                "fuel's mole fraction against a share of the lower limit, Le Chatelier, corrected for temperature; no credit for inert",
                criteria.origin(Limit.FUEL_LIMIT_SHARE) + "; " + notes,
                "");
    }

    /** Oxygen against a share of the limiting oxygen, the least of the fuels. */
    private static Answer limitingOxygen(Mixture m, Map<String, Double> fuels, double oxygen, Criteria criteria) {
        double limiting = Double.POSITIVE_INFINITY;
        String note = "";
        String which = "";
        String inert = weakInert(m.moleFractions());
        for (String f : fuels.keySet()) {
            Value v = LimitTable.limitingOxygen(f);
            if (!v.known()) {
                return unknown("limiting oxygen of " + f + " is not tabled");
            }
            if (v.si() < limiting) {
                limiting = v.si();
                note = v.note();
                which = f;
            }
        }
        // Limiting oxygen has no temperature correction: used up to 100 C, beyond that not established.
        if (m.temperature() > 373.15) {
            return unknown("limiting oxygen is tabled near room temperature");
        }
        if (!inert.isEmpty()) {
            double bound = Flammability.limitingOxygenBound(
                    limiting, Species.find(which).oxygenDemand(), inertCoefficient(m.moleFractions()));
            return new Answer(
                    oxygen,
                    allowed(bound, criteria),
                    Double.NaN,
                    "1",
                    "limiting oxygen in " + inert
                            + " is not tabled; the limit shown is a lower bound by the nitrogen equivalence",
                    "ISO 10156:2017 coefficients [published]; " + note,
                    "the bound is no measurement");
        }
        double limit = allowed(limiting, criteria);
        return new Answer(
                oxygen,
                limit,
                Draft.marginBelow(oxygen, limit),
                "1",
                "free oxygen's mole fraction against the allowed share of the limiting oxygen of " + which
                        + " in nitrogen",
                criteria.origin(limiting < 0.05 ? Limit.OXYGEN_LIMIT_SHARE_LOW : Limit.OXYGEN_LIMIT_SHARE) + "; " + note
                        + inCarbonDioxide(m, which),
                "");
    }

    /** Where carbon dioxide is the main inert: its own limiting oxygen, told and not credited; empty otherwise. */
    private static String inCarbonDioxide(Mixture m, String fuel) {
        Map<String, Double> inerts = Flammability.inerts(m.moleFractions());
        double all = inerts.values().stream().mapToDouble(Double::doubleValue).sum();
        Value v = LimitTable.limitingOxygenCarbonDioxide(fuel);
        return inerts.getOrDefault("carbon-dioxide", 0.0) > 0.5 * all && v.known()
                ? String.format(Locale.ROOT, "; in carbon dioxide %.3g %%, not credited: %s", v.si() * 100, v.note())
                : "";
    }

    /** Allowed oxygen for a limiting oxygen, mole fractions. */
    public static double allowed(double limiting, Criteria criteria) {
        if (limiting < 0.05) {
            return limiting
                    * criteria.get(
                            criteria.monitored()
                                    ? Limit.OXYGEN_LIMIT_SHARE_LOW_MONITORED
                                    : Limit.OXYGEN_LIMIT_SHARE_LOW);
        }
        return criteria.monitored()
                ? limiting - criteria.get(Limit.OXYGEN_DISTANCE_MONITORED)
                : limiting * criteria.get(Limit.OXYGEN_LIMIT_SHARE);
    }

    private static Answer leanFlame(Mixture m, Map<String, Double> fuels, Criteria criteria, double oxygen) {
        // With room for rounding: the mixture where both run out together is a lean one too, however much inert is in
        // it.
        if (Flammability.oxygenTaken(fuels) > oxygen * (1 + 1e-9)) {
            return NOT_APPLICABLE;
        }
        return flame(m, fuels, Quantity.FLAME_AT_LFL_K, criteria.get(Limit.FUEL_LIMIT_SHARE), "lower limit");
    }

    private static Answer richFlame(Mixture m, Map<String, Double> fuels, Criteria criteria, double oxygen) {
        if (Flammability.oxygenTaken(fuels) <= oxygen) {
            return NOT_APPLICABLE;
        }
        if (!weakInert(m.moleFractions()).isEmpty()) {
            Mixture room =
                    new Mixture(m.moleFractions(), REFERENCE, 101325, m.molarHeatCapacity(), false, m.convective());
            return limitingOxygen(room, fuels, oxygen, criteria);
        }
        boolean hydrogen = fuels.containsKey("hydrogen");
        double share = criteria.get(hydrogen ? Limit.OXYGEN_LIMIT_SHARE_LOW : Limit.OXYGEN_LIMIT_SHARE);
        return flame(m, fuels, Quantity.FLAME_AT_LOC_K, share, "limiting oxygen");
    }

    /**
     * Flame-temperature rule: rise at most a share of the rise at the published limit; in a mixture warmer than 25 C at most that share
     * of what is left of it, since it is the flame's temperature that the limits have in common. On the lean side the rise is that to the
     * equilibrium. On the rich side it is the higher of two: to the equilibrium, and by complete combustion of what oxygen there is.
     * Equilibrium lets the fuel left over take up heat by turning into hydrogen and carbon monoxide, which it does not do in a flame's
     * time; by itself it would pass rich mixtures with more oxygen than the limiting oxygen allows. Where the fuel itself falls apart
     * with heat (acetylene), equilibrium is the higher.
     */
    private static Answer flame(Mixture m, Map<String, Double> fuels, Quantity at, double share, String which) {
        double least = Double.POSITIVE_INFINITY;
        String note = "";
        for (String f : fuels.keySet()) {
            Value v = LimitTable.value(f, at);
            if (!v.known()) {
                return unknown("flame temperature at the " + which + " of " + f + " is not tabled");
            }
            if (v.si() < least) {
                least = v.si();
                note = v.note();
            }
        }
        double limit = share * Math.max(0, least - Math.max(REFERENCE, m.temperature()));
        double complete = Flammability.temperatureRise(m.moleFractions(), m.molarHeatCapacity());
        double burnt = Flame.temperature(m.moleFractions(), m.temperature(), m.pressure()) - m.temperature();
        boolean rich = at == Quantity.FLAME_AT_LOC_K;
        boolean byEquilibrium = !Double.isNaN(burnt) && (!rich || burnt >= complete);
        double rise = byEquilibrium ? burnt : complete;
        return new Answer(
                rise,
                limit,
                Draft.marginBelow(rise, limit),
                RISE,
                (byEquilibrium
                                ? "rise to the adiabatic flame temperature by equilibrium"
                                : "rise when the scarcer burns completely, without dissociation"
                                        + (Double.isNaN(burnt)
                                                ? " (no equilibrium could be computed),"
                                                : String.format(
                                                        Locale.ROOT,
                                                        ", higher than the %.0f K to equilibrium,",
                                                        burnt)))
                        + " against the same share of the rise that the published " + which + " has"
                        + (m.temperature() > REFERENCE ? ", less what the mixture is warmer than 25 C" : ""),
                note,
                "outside the tables' 25 C and 1 atm: by the flame-temperature rule");
    }

    /** Least autoignition of the fuels present, K; NaN when one is not tabled. */
    static double autoignition(Map<String, Double> fuels) {
        double least = Double.POSITIVE_INFINITY;
        for (String f : fuels.keySet()) {
            double t = LimitTable.value(f, Quantity.AUTOIGNITION_C).si();
            if (Double.isNaN(t)) {
                if (fuels.get(f) > ABSENT) {
                    return Double.NaN;
                }
                continue;
            }
            least = Math.min(least, t);
        }
        return least;
    }

    private static Map<String, Double> limits(Map<String, Double> fuels, String which) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (String f : fuels.keySet()) {
            out.put(f, ("lower".equals(which) ? LimitTable.lowerLimit(f) : LimitTable.limitingOxygen(f)).si());
        }
        return out;
    }

    private static String mist(Mixture m, Map<String, Double> fuels) {
        for (String f : fuels.keySet()) {
            double flash = LimitTable.value(f, Quantity.FLASH_POINT_C).si();
            if (m.temperature() < flash) {
                return f + " is below its flash point: vapour limits do not cover a mist, which burns all the same";
            }
        }
        return "";
    }

    /** Share of the inerts from which one that is weaker than nitrogen keeps its tables from being used [invented]. */
    private static final double WEAK_SHARE = 0.1;

    /** The inert weaker than nitrogen that there is most of; empty where such are too few to matter. */
    private static String weakInert(Map<String, Double> x) {
        String most = "";
        double share = 0;
        double weak = 0;
        double all = 0;
        for (Map.Entry<String, Double> e : Flammability.inerts(x).entrySet()) {
            all += e.getValue();
            if (coefficient(e.getKey()) < 1) {
                weak += e.getValue();
                if (e.getValue() > share) {
                    share = e.getValue();
                    most = e.getKey();
                }
            }
        }
        return weak > WEAK_SHARE * all ? most : "";
    }

    /** Nitrogen equivalence of an inert, not above 1; an inert without one in the tables (water) counts as nitrogen. */
    private static double coefficient(String inert) {
        Value v = LimitTable.value(inert, Quantity.INERT_COEFFICIENT);
        return v.known() ? Math.min(1, v.si()) : 1;
    }

    /** Mean of the inerts' nitrogen equivalences, each not above 1; 1 where there is none. */
    private static double inertCoefficient(Map<String, Double> x) {
        double sum = 0;
        double weighed = 0;
        for (Map.Entry<String, Double> e : Flammability.inerts(x).entrySet()) {
            sum += e.getValue();
            weighed += e.getValue() * coefficient(e.getKey());
        }
        return sum > 0 ? weighed / sum : 1;
    }

    private static double molarMass(CavityState c) {
        return c.state().fluid().molarMass();
    }

    /** True when a stream of the kind that is scarcer in the cavity arrives along the flow. */
    private static boolean convective(Setting s, CavityState c) {
        double demand = 0;
        for (Map.Entry<String, Double> e : c.moleFractions().entrySet()) {
            Species species = Species.find(e.getKey());
            demand += species == null ? 0 : e.getValue() * species.oxygenDemand();
        }
        StreamKind scarce = demand > 0 ? StreamKind.OXIDIZER : StreamKind.FUEL;
        double trace = s.criteria().get(Limit.TRACE_LIMIT);
        for (PassageState p : s.solve().passages().values()) {
            boolean to = p.to().equals(c.name());
            CavityState from = to ? s.cavity(p.from()) : p.from().equals(c.name()) ? s.cavity(p.to()) : null;
            double in = to ? p.flow().massFlow() : -p.flow().massFlow();
            if (from == null || in <= 1e-9 * s.greatestFlow()) {
                continue;
            }
            for (Map.Entry<String, Double> e : from.streamFractions().entrySet()) {
                if (s.streams().kinds().get(e.getKey()) == scarce && e.getValue() > trace) {
                    return true;
                }
            }
        }
        return false;
    }
}

package purgewright.hazard.criteria;

import java.util.EnumSet;
import java.util.Set;
import purgewright.fluids.unit.Dimension;

/** Every limit a case may set in its {@code criteria} section: key, dimension, default and where the default comes from. */
public enum Limit {
    BARRIER_EXCESS(
            "barrier excess",
            Dimension.PRESSURE_DIFFERENCE,
            0.14e6,
            "excess of the barrier over its neighbour, close seals",
            "API 682, plan 53/54 guidance, 0.14 MPa (1.4 bar) above the seal chamber [published, value recalled from memory]"),
    BARRIER_RATIO(
            "barrier ratio",
            Dimension.NUMBER,
            1.10,
            "least ratio of barrier to neighbour pressure, close seals",
            "10 to 20 % above the highest neighbour is a usual first guess [common practice]"),
    INSTRUMENT_UNCERTAINTY(
            "instrument uncertainty",
            Dimension.PRESSURE_DIFFERENCE,
            0.035e6,
            "uncertainty of a pressure reading",
            "project default [invented]"),
    FLOW_UNCERTAINTY(
            "flow uncertainty",
            Dimension.NUMBER,
            0.05,
            "relative uncertainty of a purge flow reading",
            "project default [invented]"),
    TEMPERATURE_UNCERTAINTY(
            "temperature uncertainty",
            Dimension.TEMPERATURE_DIFFERENCE,
            5,
            "uncertainty of a temperature reading",
            "project default [invented]"),
    GAP_VELOCITY(
            "gap velocity",
            Dimension.SPEED,
            5,
            "least outward velocity along an open gap",
            "API 614 5th ed./API 692 seal-gas clauses: 5 m/s at twice the design clearance [published, value recalled from memory]"),
    GAP_VELOCITY_SHARE(
            "gap velocity share",
            Dimension.NUMBER,
            0.10,
            "least outward velocity along an open gap as a share of the surface speed",
            "project default after disc-ingestion research [from memory]"),
    CLEARANCE_FACTOR(
            "clearance factor",
            Dimension.NUMBER,
            2,
            "all barrier seals open this many times for the gap velocity",
            "API 614 5th ed./API 692: twice the design clearance [published, value recalled from memory]"),
    OXYGEN_LIMIT_SHARE(
            "oxygen limit share",
            Dimension.NUMBER,
            0.60,
            "oxygen on a fuel side as a share of the limiting oxygen, where that is 5 % or more",
            "NFPA 69, oxidant concentration [published, value recalled from memory]"),
    OXYGEN_LIMIT_SHARE_LOW(
            "oxygen limit share low",
            Dimension.NUMBER,
            0.40,
            "the same where the limiting oxygen is below 5 % (hydrogen)",
            "NFPA 69, oxidant concentration [published, value recalled from memory]"),
    OXYGEN_LIMIT_SHARE_LOW_MONITORED(
            "oxygen limit share low monitored",
            Dimension.NUMBER,
            0.60,
            "the same where the limiting oxygen is below 5 % and oxygen is monitored",
            "NFPA 69, oxidant concentration [published, value recalled from memory]"),
    OXYGEN_DISTANCE_MONITORED(
            "oxygen distance monitored",
            Dimension.NUMBER,
            0.02,
            "mole fraction below the limiting oxygen where oxygen is monitored and the limit is 5 % or more",
            "NFPA 69, oxidant concentration [published, value recalled from memory]"),
    FUEL_LIMIT_SHARE(
            "fuel limit share",
            Dimension.NUMBER,
            0.25,
            "fuel on an oxygen side as a share of the lower flammability limit",
            "NFPA 69, combustible concentration [published, value recalled from memory]"),
    INGRESS_TEMPERATURE_RISE(
            "ingress temperature rise",
            Dimension.TEMPERATURE_DIFFERENCE,
            50,
            "greatest temperature rise when all that got in burns",
            "project default [invented]"),
    AUTOIGNITION_DISTANCE(
            "autoignition distance",
            Dimension.TEMPERATURE_DIFFERENCE,
            100,
            "a cavity hotter than autoignition less this is not judged by room-temperature tables",
            "project default [invented]"),
    TRACE_LIMIT(
            "trace limit",
            Dimension.NUMBER,
            1e-6,
            "mass fraction of a stream below which it counts as absent",
            "project default [invented]"),
    LIQUID_OXYGEN_TRACE(
            "liquid oxygen trace",
            Dimension.NUMBER,
            1e-5,
            "mole fraction of hydrocarbon in liquid oxygen",
            "project default [invented]; the oxygen specification in force rules"),
    MIST(
            "mist limit",
            Dimension.DENSITY,
            0.005,
            "greatest mass by volume of a fuel below its flash point in a gas space with oxygen",
            "a tenth of the lower limit of vapours and fine mists, about 48 g/m3 (Zabetakis, Bulletin 627 [from memory]); coarse drops"
                    + " burn leaner [common practice]"),
    AXIAL_FORCE(
            "axial force capacity",
            Dimension.FORCE,
            Double.NaN,
            "greatest change of the axial force on the disc faces that the bearing takes; not judged unless stated",
            "none: the bearing's own value [stated by the user]"),
    CONTACT_LIMIT(
            "contact limit",
            Dimension.LENGTH,
            10e-6,
            "least running clearance",
            "project default: 10 um or the share of cold, the larger [common practice]"),
    CONTACT_LIMIT_SHARE(
            "contact limit share",
            Dimension.NUMBER,
            0.10,
            "least running clearance as a share of the cold one",
            "project default: 10 um or the share of cold, the larger [common practice]"),
    RUBBING_SPEED(
            "rubbing speed",
            Dimension.SPEED,
            152,
            "greatest surface speed of a rubbing seal (contacting face, segmented ring)",
            "NASA SP-8121, sections 2, 3.2.1-3.2.4, pp. 7, 106-111: rubbing above about 500 ft/s, clearance or film seals"
                    + " [published, transcription]"),
    OXYGEN_RUBBING_SPEED(
            "oxygen rubbing speed",
            Dimension.SPEED,
            61,
            "greatest surface speed of a rubbing seal in liquid oxygen or kerosene",
            "NASA SP-8121, sections 3.2.1-3.2.4, pp. 106-111: usually below 200 ft/s [published, transcription]"),
    SEGMENTED_PRESSURE(
            "segmented pressure",
            Dimension.PRESSURE_DIFFERENCE,
            0.69e6,
            "greatest pressure difference over a segmented ring",
            "NASA SP-8121, sections 3.2.1-3.2.4, pp. 106-111: below 100 psi [published, transcription]"),
    DEAD_END_TEMPERATURE(
            "dead end temperature",
            Dimension.TEMPERATURE,
            450,
            "greatest temperature of oxygen compressed into a dead end",
            "below the autoignition of common seal polymers in oxygen [invented; the part's own value rules]"),
    BARRIERS_REACTIVE(
            "barriers",
            Dimension.NUMBER,
            1,
            "independent barriers between a reactive pair",
            "project default [common practice]"),
    BARRIERS_CONTAMINATION(
            "barriers contamination",
            Dimension.NUMBER,
            1,
            "independent barriers between two fluids that only contaminate each other",
            "project default [common practice]"),
    PURGE_IN_LIQUID(
            "purge in liquid",
            Dimension.NUMBER,
            0.01,
            "greatest volume fraction of purge gas where it enters a pumped liquid",
            "project default [invented]; the pump's own limit rules"),
    BOUNDARY_EXCESS(
            "boundary excess",
            Dimension.NUMBER,
            0.20,
            "how much a boundary pressure rises in the fault \"boundary pressure high\"",
            "project default [invented]"),
    SUPPLY_LOW(
            "supply low",
            Dimension.NUMBER,
            0.20,
            "how much the supply pressure falls in the fault \"regulator low\"",
            "spring regulators droop 5 to 15 % of set over their range [common practice]; rounded up"),
    SUPPLY_HIGH(
            "supply high",
            Dimension.NUMBER,
            0.50,
            "how much the supply pressure rises in the fault \"regulator failed open\" when neither relief nor bottle is stated",
            "project default [invented]"),
    OVERSPEED(
            "overspeed",
            Dimension.NUMBER,
            0.10,
            "overspeed in the fault of that name",
            "project default [common practice]"),
    FAILED_OPEN_FACTOR(
            "failed open factor",
            Dimension.NUMBER,
            10,
            "times the drawing clearance of a seal that failed open",
            "project default [invented]"),
    DRAIN_CAPACITY(
            "drain capacity",
            Dimension.NUMBER,
            0.9,
            "share of their flow that drain lines still take when a seal has failed open",
            "project default [invented]"),
    CHECK_VALVE_LEAK(
            "check valve leak",
            Dimension.NUMBER,
            0.1,
            "open share of the bore of a check valve that leaks",
            "project default [invented]"),
    DETECTION_TIME(
            "detection time",
            Dimension.TIME,
            0.1,
            "from the reading to the alarm, persistence included",
            "project default [invented]"),
    SHUTDOWN_TIME(
            "shutdown time", Dimension.TIME, 0.5, "from the alarm until valves are shut", "project default [invented]"),
    COAST_DOWN_TIME(
            "coast-down time",
            Dimension.TIME,
            3,
            "from valves shut until the rotor stands",
            "coast-down of a small turbopump lasts a few seconds [common practice]");

    private final String key;
    private final Dimension dimension;
    private final double fallback;
    private final String description;
    private final String origin;

    Limit(String key, Dimension dimension, double fallback, String description, String origin) {
        this.key = key;
        this.dimension = dimension;
        this.fallback = fallback;
        this.description = description;
        this.origin = origin;
    }

    /** Key in the case's {@code criteria} section. */
    public String key() {
        return key;
    }

    /** What it is measured in. */
    public Dimension dimension() {
        return dimension;
    }

    /** Default, SI. */
    public double fallback() {
        return fallback;
    }

    /** One phrase. */
    public String description() {
        return description;
    }

    /** Where the default comes from, with its label. */
    public String origin() {
        return origin;
    }

    /** Limits that a greater value makes easier to meet; of all others it is a smaller one. */
    private static final Set<Limit> LOOSER_ABOVE = EnumSet.of(
            OXYGEN_LIMIT_SHARE,
            OXYGEN_LIMIT_SHARE_LOW,
            OXYGEN_LIMIT_SHARE_LOW_MONITORED,
            FUEL_LIMIT_SHARE,
            INGRESS_TEMPERATURE_RISE,
            TRACE_LIMIT,
            LIQUID_OXYGEN_TRACE,
            MIST,
            RUBBING_SPEED,
            OXYGEN_RUBBING_SPEED,
            SEGMENTED_PRESSURE,
            DEAD_END_TEMPERATURE,
            PURGE_IN_LIQUID,
            DRAIN_CAPACITY);

    /** Factors on what is stated, and what there must be one of. */
    private static final Set<Limit> AT_LEAST_ONE =
            EnumSet.of(BARRIER_RATIO, CLEARANCE_FACTOR, FAILED_OPEN_FACTOR, BARRIERS_REACTIVE);

    /** Shares of a whole. */
    private static final Set<Limit> AT_MOST_ONE = EnumSet.of(
            OXYGEN_LIMIT_SHARE,
            OXYGEN_LIMIT_SHARE_LOW,
            OXYGEN_LIMIT_SHARE_LOW_MONITORED,
            OXYGEN_DISTANCE_MONITORED,
            FUEL_LIMIT_SHARE,
            LIQUID_OXYGEN_TRACE,
            PURGE_IN_LIQUID,
            SUPPLY_LOW,
            DRAIN_CAPACITY,
            CHECK_VALVE_LEAK);

    /** Whether a value is easier to meet than another; false for a limit that has no default. */
    public boolean looser(double value, double than) {
        return LOOSER_ABOVE.contains(this) ? value > than : value < than;
    }

    /** Least value that means something, SI. */
    public double lowest() {
        return AT_LEAST_ONE.contains(this) ? 1 : 0;
    }

    /** Greatest value that means something, SI: a share is at most the whole; what counts as absent is at most one part in a hundred [invented]. */
    public double highest() {
        return this == TRACE_LIMIT ? 0.01 : AT_MOST_ONE.contains(this) ? 1 : Double.POSITIVE_INFINITY;
    }
}

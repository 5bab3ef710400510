package purgewright.hazard.deficiency;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import purgewright.hazard.deficiency.RoomOxygen.Fan;
import purgewright.hazard.finding.Draft;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.Supply;

/**
 * What the gas released into the case's {@code room} does to its oxygen: running, and a break of the whole bottle bank. Well mixed; the
 * fan is taken as extracting, which is the worse of the two.
 */
public final class Release {
    /** Key of the oxygen in the room while running. */
    public static final String RUNNING = "room-oxygen";

    /** Key of the oxygen after a break of the bank. */
    public static final String BANK = "room-oxygen-bank-break";

    private static final double GAS_CONSTANT = 8.314462618;
    /** Oxygen in fresh air, volume fraction. */
    public static final double FRESH = 0.209;

    private static final String THRESHOLD =
            "29 CFR 1910.146: deficient below 19.5 % [published]; below 18 % dangerous [published]";
    private static final String STRATIFIED =
            "mean of a well-mixed room: helium collects under the roof, cold nitrogen and argon on the floor, where oxygen is lower; an"
                    + " oxygen monitor goes high for helium, low for argon and cold nitrogen [common practice]";

    private Release() {}

    /** The case's room as it is read; its volume is more than zero. */
    private record Room(Map<String, Object> fields, double temperature, RoomOxygen oxygen) {
        /** Null without one. */
        static Room of(Case model) {
            if (!(model.extras().get("room") instanceof Map<?, ?> read)) {
                return null;
            }
            Map<String, Object> fields = new LinkedHashMap<>();
            read.forEach((k, v) -> fields.put(String.valueOf(k), v));
            double volume = number(fields.get("volume"), Double.NaN);
            if (!(volume > 0)) {
                return null;
            }
            double ventilation = number(fields.get("ventilation"), 0);
            return new Room(
                    fields,
                    number(fields.get("temperature"), model.surroundings().temperature()),
                    new RoomOxygen(volume, ventilation, ventilation > 0 ? Fan.EXTRACTED : Fan.NONE, FRESH));
        }
    }

    /** Findings of one phase that begins in fresh air; see the longer form. */
    public static List<Finding> judge(Case model, Map<String, Double> moles, double duration, Scene scene) {
        return judge(model, moles, duration, scene, FRESH);
    }

    /**
     * Findings of one phase.
     *
     * @param moles gas that runs into each vent, mol/s, by vent
     * @param duration of the phase, s; NaN means for ever
     * @param start oxygen in the room when the phase begins, volume fraction
     */
    public static List<Finding> judge(
            Case model, Map<String, Double> moles, double duration, Scene scene, double start) {
        List<Finding> out = new ArrayList<>();
        Room read = Room.of(model);
        if (read == null) {
            return out;
        }
        Map<String, Object> room = read.fields();
        double temperature = read.temperature();
        RoomOxygen oxygen = read.oxygen();
        double total = 0;
        for (Map.Entry<String, Double> e : moles.entrySet()) {
            if (!(room.get("vents") instanceof List<?> vents) || vents.isEmpty() || vents.contains(e.getKey())) {
                total += Math.max(0, e.getValue());
            }
        }
        double alarm = number(room.get("oxygen alarm"), RoomOxygen.DEFICIENT);
        double pressure = model.surroundings().pressure();
        double lacking = RoomOxygen.dangerous(pressure);
        double flow = total * GAS_CONSTANT * temperature / pressure;
        double at = Double.isNaN(duration) ? oxygen.last(flow) : oxygen.from(start, duration, flow);
        out.add(Draft.of(RUNNING, "/room", scene)
                .what("Fall of the oxygen in the room from fresh air"
                        + (Double.isNaN(duration) ? " in the long run" : " at the end of the phase"))
                .unit("1")
                .how("well-mixed room, all that runs into its vents at room temperature, no oxygen in it counted, "
                        + percent(start) + " at the start; from fresh air "
                        + text("alarm", oxygen.timeTo(alarm, flow))
                        + ", "
                        + text(
                                lacking > RoomOxygen.DANGEROUS ? percent(lacking) : "18 %",
                                oxygen.timeTo(lacking, flow)))
                .source(THRESHOLD)
                .mend("lead the vents outdoors, or more fresh air")
                .caution(caution(at) + thin(lacking, pressure))
                .atMost(FRESH - at, FRESH - RoomOxygen.DEFICIENT));
        return out;
    }

    /**
     * Finding of a break of the whole bottle bank, which does not ask for the phase: one for a case; empty without a room or bottles.
     *
     * @param scene the case's first phase
     */
    public static List<Finding> bankBreak(Case model, Scene scene) {
        Room room = Room.of(model);
        Supply supply = model.supply();
        if (room == null || supply == null || supply.bottles() == null) {
            return List.of();
        }
        Supply.Bottles b = supply.bottles();
        // Ideal gas: more than a real bottle of helium or nitrogen holds at 20 MPa, so on the safe side.
        double released = b.number()
                * b.volume()
                * b.fillingPressure()
                / model.surroundings().pressure()
                * room.temperature()
                / b.temperature();
        double left = room.oxygen().afterSudden(released);
        double rate = number(room.fields().get("bank break rate"), Double.NaN) * 3600;
        return List.of(Draft.of(BANK, "/room", scene)
                .what("Fall of the oxygen in the room after the whole bottle bank has emptied into it, in any phase")
                .unit("1")
                .how("contents as ideal gas, mixed while air leaves, no ventilation" + risk(rate, left))
                .source(THRESHOLD)
                .mend("keep the bank outdoors, or in smaller sections with excess-flow valves")
                .caution(caution(left))
                .atMost(FRESH - left, FRESH - RoomOxygen.DEFICIENT));
    }

    /** Said where the air is so thin that a share of 19.5 % is no protection; empty elsewhere. */
    private static String thin(double lacking, double pressure) {
        return lacking <= RoomOxygen.DEFICIENT
                ? ""
                : String.format(
                        Locale.ROOT,
                        "; at %.1f kPa people lack oxygen below %s already (135 mmHg): the limit of 19.5 %% is for sea level",
                        pressure / 1000,
                        percent(lacking));
    }

    private static String caution(double oxygen) {
        String effect = RoomOxygen.effect(oxygen);
        return effect.isEmpty() ? STRATIFIED : STRATIFIED + "; " + effect + " (EIGA Doc 44/18 [published])";
    }

    /** Fatality rate of the break and its class, where the case states how often it comes; empty otherwise. */
    private static String risk(double perHour, double oxygen) {
        if (Double.isNaN(perHour)) {
            return "";
        }
        double phi = RoomOxygen.fatalityRate(new double[] {perHour}, new double[] {oxygen});
        int hazard = RoomOxygen.hazardClass(phi);
        return String.format(
                Locale.ROOT,
                "; fatality rate %.2g per hour (rate of the break times fatality factor), %s",
                phi,
                hazard < 0 ? "unclassified" : "class " + hazard);
    }

    private static String percent(double share) {
        return String.format(Locale.ROOT, "%.1f %%", 100 * share);
    }

    /**
     * Oxygen in the case's room at the end of a phase, volume fraction; what it was where there is no room.
     *
     * @param start at the beginning of the phase
     * @param duration s; NaN or infinite: for ever
     */
    public static double after(Case model, Map<String, Double> moles, double duration, double start) {
        RoomHistory history = RoomHistory.of(model, List.of(new RoomHistory.Phase("", duration, moles)), start);
        return history == null ? start : history.last();
    }

    private static String text(String what, double time) {
        return Double.isInfinite(time) ? what + " never reached" : what + " after " + Math.round(time) + " s";
    }

    private static double number(Object value, double fallback) {
        return value instanceof Number n ? n.doubleValue() : fallback;
    }
}

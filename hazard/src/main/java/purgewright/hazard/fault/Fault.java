package purgewright.hazard.fault;

import java.util.Map;
import java.util.function.UnaryOperator;
import purgewright.sealflow.model.Case;

/**
 * Something that may fail: a change of the case.
 *
 * @param name unique, in words
 * @param kind what sort
 * @param place JSON Pointer of what fails; two faults at one place exclude each other
 * @param credible false for a fault that is shown but does not enter the verdict
 * @param group faults of one common cause share it; empty for none
 * @param set values by JSON Pointer, as typed, applied to the document first; empty for automatic faults
 * @param change applied to the case; order does not matter between faults at different places
 */
public record Fault(
        String name,
        Kind kind,
        String place,
        boolean credible,
        String group,
        Map<String, String> set,
        UnaryOperator<Case> change) {

    /** Sorts of fault. */
    public enum Kind {
        WORN("clearance worn"),
        FAILED_OPEN("seal failed open"),
        SUPPLY_LOW("regulator low"),
        SUPPLY_HIGH("regulator failed open"),
        SUPPLY_EMPTY("supply lost"),
        PLUGGED("passage plugged or shut"),
        DRAIN_BLOCKED("drain blocked or frozen"),
        DRAIN_BROKEN("drain line broken"),
        CHECK_VALVE("check valve leaking or stuck"),
        CROSS_FEED("manifold cross-feeding"),
        WRONG_GAS("wrong gas"),
        VALVE_OPEN("valve open"),
        OVERSPEED("overspeed"),
        STANDSTILL("standing still with cold clearances"),
        BOUNDARY_HIGH("boundary pressure high"),
        SENSOR_BIASED("sensor biased"),
        USER("stated in the case");

        private final String text;

        Kind(String text) {
            this.text = text;
        }

        /** In words. */
        public String text() {
            return text;
        }
    }
}

package purgewright.hazard.sizing;

import java.util.List;

/**
 * What a seal package costs at one operating point, so that two packages compare on one line. SI; NaN where the case does not say
 * what a share is to be taken of.
 *
 * @param phase of the duty
 * @param purgeFlow into all barriers, kg/s
 * @param pumped losses of the pumped fluids (cavities called oxidizer or fuel), one a stream
 * @param drive losses of the drive gases (cavities called hot gas), one a stream
 * @param windage of the rotor's discs, W
 * @param friction in the seal gaps, W
 * @param carried purge gas that runs into a working fluid, one a passage; empty when none does
 */
public record BarrierPrice(
        String phase,
        double purgeFlow,
        List<Loss> pumped,
        List<Loss> drive,
        double windage,
        double friction,
        List<Carried> carried) {

    /** Shaft power eaten by windage and friction, W. */
    public double shaftPower() {
        return windage + friction;
    }

    /**
     * What leaves a working fluid into the seal package.
     *
     * <pre>{@code lost = given - returned;   share = lost / main flow}</pre>
     *
     * @param stream name
     * @param given flow out of the cavities that hold it, kg/s
     * @param returned what runs back into cavities that hold it, kg/s: not lost, but pumped (or expanded) again
     * @param mainFlow of the machine, {@code /streams/NAME/main flow}, kg/s; NaN when not stated
     */
    public record Loss(String stream, double given, double returned, double mainFlow) {
        /** What does not come back, kg/s. */
        public double lost() {
            return given - returned;
        }

        /** Lost flow over main flow; NaN when that is not stated. */
        public double lostShare() {
            return lost() / mainFlow;
        }

        /** Returned flow over main flow; NaN when that is not stated. */
        public double returnedShare() {
            return returned / mainFlow;
        }
    }

    /**
     * Purge gas that a passage carries into a working fluid.
     *
     * @param passage name
     * @param into cavity
     * @param stream of that cavity
     * @param liquid whether that is a liquid: then {@code share} is a void fraction, else a mole fraction
     * @param flow of purge gas, kg/s
     * @param share void fraction (volume of gas at the cavity's pressure and temperature over the whole) or mole fraction of the main
     *     flow once it is mixed in; NaN when the main flow is not stated
     * @param entryShare the same of what comes through the passage alone, before it is mixed in
     */
    public record Carried(
            String passage, String into, String stream, boolean liquid, double flow, double share, double entryShare) {}
}

package purgewright.hazard.service;

import java.util.List;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Verdict;
import purgewright.sealflow.campaign.Channel;

/**
 * The duty through time: what command, window and report show. SI; NaN where there is none.
 *
 * @param outcome how the run ended; what is here holds up to that moment
 * @param note one sentence when it did not finish, else empty
 * @param verdict of all moments looked at, by precedence
 * @param verdictLine in words
 * @param phases in the order of the duty, as far as the run came
 * @param channels computed; all share the same times
 * @param measured channels of a test, laid over the prediction; may be empty
 * @param moments what happened when, in order
 * @param least the least margin of all; null when nothing was judged
 * @param findings the worst of each criterion at each place, worst first
 * @param gas what the bank gave
 * @param closure what the balances leave over
 * @param notes what the reader has to know about how it was computed
 */
public record RunResult(
        Outcome outcome,
        String note,
        Verdict verdict,
        String verdictLine,
        List<PhaseUse> phases,
        List<Channel> channels,
        List<Channel> measured,
        List<Moment> moments,
        Least least,
        List<Finding> findings,
        Gas gas,
        Closure closure,
        List<String> notes) {

    /** How a run ended. */
    public enum Outcome {
        FINISHED,
        /** Interrupted: a usable partial answer. */
        CANCELLED,
        /** A moment had no solution; nothing after it is known. */
        NOT_CONVERGED
    }

    /**
     * One phase of the duty.
     *
     * @param name of the phase
     * @param start s from the start of the duty
     * @param end s
     * @param gas used, kg
     * @param meanFlow kg/s
     * @param peakFlow kg/s
     * @param bottlePressure of the bank in use at the end, Pa; NaN without bottles
     * @param verdict of the phase
     * @param leastMargin of any criterion
     * @param leastCriterion key of it
     * @param leastPlace JSON Pointer of it
     * @param leastTime s
     */
    public record PhaseUse(
            String name,
            double start,
            double end,
            double gas,
            double meanFlow,
            double peakFlow,
            double bottlePressure,
            Verdict verdict,
            double leastMargin,
            String leastCriterion,
            String leastPlace,
            double leastTime) {}

    /** What kind of thing happened. */
    public enum Event {
        PHASE,
        BANK_SWITCH,
        DROPOUT,
        EMPTY,
        CRITERION_LOST,
        CRITERION_BACK,
        RELIEF
    }

    /**
     * Something that happened.
     *
     * @param time s
     * @param event its kind
     * @param what in words
     * @param place JSON Pointer; empty when there is none
     */
    public record Moment(double time, Event event, String what, String place) {}

    /**
     * The least margin of the run, and why it is least there.
     *
     * @param time s
     * @param phase name
     * @param criterion key
     * @param place JSON Pointer
     * @param margin relative
     * @param finding the finding behind it
     * @param cause which change since the moment of the greatest margin took it away, in words
     * @param causePlace JSON Pointer of what changed; empty when no single change explains it
     * @param marginWithout the margin there with that one change undone
     */
    public record Least(
            double time,
            String phase,
            String criterion,
            String place,
            double margin,
            Finding finding,
            String cause,
            String causePlace,
            double marginWithout) {}

    /**
     * The gas of the whole run.
     *
     * @param stream name of the case's stream
     * @param fluid library name, or the stream's own when it is a mixture
     * @param atStart in the bank, kg; NaN without bottles
     * @param used kg
     * @param atEnd in the bank, kg
     * @param usableAtEnd that the regulator can still use, isothermally, kg
     * @param leastInlet least bottle pressure that still feeds the greatest flow of the run, Pa
     * @param settled pressure of the banks at the surroundings' temperature after the run, Pa, in the order of the banks
     */
    public record Gas(
            String stream,
            String fluid,
            double atStart,
            double used,
            double atEnd,
            double usableAtEnd,
            double leastInlet,
            List<Double> settled) {}

    /**
     * What the balances leave over.
     *
     * @param networkMass worst of all moments, of the largest flow
     * @param networkEnergy worst of all moments, of the largest enthalpy flow
     * @param bottleMass gas at the start less at the end less used, of the filling
     * @param bottleEnergy the same for energy with the walls' heat, of the filling's energy
     */
    public record Closure(double networkMass, double networkEnergy, double bottleMass, double bottleEnergy) {}

    /** The computed channels of a kind, in order. */
    public List<Channel> channels(Channel.Kind kind) {
        return channels.stream().filter(c -> c.kind() == kind).toList();
    }

    /** The computed channel of that name; null when there is none. */
    public Channel channel(String name) {
        return channels.stream().filter(c -> c.name().equals(name)).findFirst().orElse(null);
    }
}

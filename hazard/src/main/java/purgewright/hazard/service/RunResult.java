package purgewright.hazard.service;

import java.util.List;
import java.util.Map;
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
 * @param overlays channels of a test, laid over the prediction; may be empty
 * @param moments what happened when, in order
 * @param least the least margin of all; null when nothing was judged
 * @param findings the worst of each criterion at each place and when it was, worst first
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
        List<Overlay> overlays,
        List<Moment> moments,
        Least least,
        List<Timed> findings,
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
        FLOW_LIMIT,
        EMPTY,
        CRITERION_LOST,
        CRITERION_BACK
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
     * @param cause what took it away; null when no single change explains it
     */
    public record Least(
            double time, String phase, String criterion, String place, double margin, Finding finding, Cause cause) {}

    /**
     * The one change since the moment of the greatest margin whose undoing gives back most of it; found by solving again without it.
     *
     * @param place JSON Pointer of what changed
     * @param what in words
     * @param from value at the moment of the greatest margin, SI; NaN where it has none
     * @param to value at the moment of the least margin, SI
     * @param unit SI symbol; empty where it has none
     * @param since the moment of the greatest margin, s
     * @param greatest margin there
     * @param without margin at the least moment with this one change undone; NaN when it could not be solved
     */
    public record Cause(
            String place,
            String what,
            double from,
            double to,
            String unit,
            double since,
            double greatest,
            double without) {}

    /** A finding and when it was at its worst, s. */
    public record Timed(double time, Finding finding) {}

    /**
     * A measured channel beside the computed one.
     *
     * @param measured of the test
     * @param computed name of the computed channel at the same place; empty when there is none
     * @param mean of measured less computed over the points, SI
     * @param rms of it
     * @param greatest of it, with its sign
     * @param greatestTime s
     */
    public record Overlay(
            Channel measured, String computed, double mean, double rms, double greatest, double greatestTime) {}

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
     * @param elsewhere what other fixed cavities of inert gas gave besides, kg by cavity: not drawn from the supply and not in {@code used}
     */
    public record Gas(
            String stream,
            String fluid,
            double atStart,
            double used,
            double atEnd,
            double usableAtEnd,
            double leastInlet,
            List<Double> settled,
            Map<String, Double> elsewhere) {}

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

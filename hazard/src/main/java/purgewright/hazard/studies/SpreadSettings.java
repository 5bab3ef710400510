package purgewright.hazard.studies;

import java.util.List;
import java.util.Locale;

/**
 * How a spread is run. Everything that has a say in the numbers stands here, so that settings, case hash, engine and program version
 * together give the same result again.
 *
 * @param samples planned, at least 1
 * @param sampling how points are laid in the unit cube
 * @param seed of every stream
 * @param confidence of all intervals, in ]0, 1[
 * @param interval kind of the interval of a probability
 * @param width the run stops, at a batch's end, once the interval of the probability that the separation holds is no wider; 0 never
 * @param part which part of the plan to run
 * @param phases names of the duty phases to look at; empty means all
 * @param outputs places of the quantities to follow; empty means barrier pressures, purge flow and margins
 * @param studies what else is asked for
 * @param target least probability that the separation must hold with; NaN: the case's own, or none
 * @param falseTrips allowed probability of a false trip in one run, for the redline trade
 */
public record SpreadSettings(
        int samples,
        Sampling sampling,
        long seed,
        double confidence,
        Interval interval,
        double width,
        Part part,
        List<String> phases,
        List<String> outputs,
        Studies studies,
        double target,
        double falseTrips) {

    /**
     * 2000 samples: the interval of a probability near 0.95 is then 0.02 wide, and a run takes minutes at most. 95 %: common practice.
     * One false trip in ten thousand runs: invented, to be replaced by what a campaign can bear.
     */
    public static final SpreadSettings DEFAULT = new SpreadSettings(
            2000,
            Sampling.LATIN_HYPERCUBE,
            1,
            0.95,
            Interval.WILSON,
            0,
            Part.WHOLE,
            List.of(),
            List.of(),
            Studies.DEFAULT,
            Double.NaN,
            1e-4);

    /** Largest plan: beyond it the Latin hypercube's permutations no longer fit into a small machine's memory. */
    public static final int MOST_SAMPLES = 10_000_000;

    /** Checks and copies. */
    public SpreadSettings {
        if (samples < 1 || samples > MOST_SAMPLES) {
            throw new IllegalArgumentException("samples " + samples + " must be 1 to " + MOST_SAMPLES);
        }
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException("confidence " + confidence + " must be between 0 and 1");
        }
        if (!(width >= 0 && width < 1)) {
            throw new IllegalArgumentException("width " + width + " must be at least 0 and below 1");
        }
        if (width > 0 && part.of() > 1) {
            throw new IllegalArgumentException(
                    "a part runs to its end: a width would stop each part elsewhere than the whole run");
        }
        if (!(Double.isNaN(target) || (target > 0 && target < 1))) {
            throw new IllegalArgumentException("target " + target + " must be between 0 and 1");
        }
        if (!(falseTrips > 0 && falseTrips < 1)) {
            throw new IllegalArgumentException("false trips " + falseTrips + " must be between 0 and 1");
        }
        phases = List.copyOf(phases);
        outputs = List.copyOf(outputs);
    }

    /** How points are laid. */
    public enum Sampling {
        /** One point in each of as many strata of every input. */
        LATIN_HYPERCUBE,
        /** Sobol's sequence, shifted by a random vector that the seed fixes. */
        SOBOL,
        /** Independent points. */
        RANDOM;

        /** As typed. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', ' ');
        }
    }

    /** Kind of a binomial interval. */
    public enum Interval {
        /** Wilson's score interval: close to the stated confidence on average. */
        WILSON,
        /** Clopper and Pearson's: never below the stated confidence, wider. */
        CLOPPER_PEARSON;

        /** As typed. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * A part of the plan: every {@code of}-th sample, from {@code number} - 1 on, so that all parts take about equally long.
     *
     * @param number 1 to {@code of}
     * @param of how many parts there are
     */
    public record Part(int number, int of) {
        /** All of it. */
        public static final Part WHOLE = new Part(1, 1);

        /** Checks. */
        public Part {
            if (of < 1 || number < 1 || number > of) {
                throw new IllegalArgumentException("part " + number + "/" + of + " is none");
            }
        }
    }

    /**
     * Studies beside the samples.
     *
     * @param tornado one input at a time
     * @param linear slopes at the nominal point
     * @param sobol samples of the variance-based indices, 0 for none; the case is solved that often times the number of inputs plus two
     * @param rare samples a level of the search for rare failures, 0 for none
     * @param redlines false trips and missed losses
     * @param corners all new, all worn, extreme boundaries
     */
    public record Studies(boolean tornado, boolean linear, int sobol, int rare, boolean redlines, boolean corners) {
        /** What costs little. */
        public static final Studies DEFAULT = new Studies(true, true, 0, 0, true, true);

        /** Samples alone. */
        public static final Studies NONE = new Studies(false, false, 0, 0, false, false);
    }

    /** The same with another number of samples. */
    public SpreadSettings withSamples(int value) {
        return new SpreadSettings(
                value, sampling, seed, confidence, interval, width, part, phases, outputs, studies, target, falseTrips);
    }

    /** The same with another way to lay points. */
    public SpreadSettings withSampling(Sampling value) {
        return new SpreadSettings(
                samples, value, seed, confidence, interval, width, part, phases, outputs, studies, target, falseTrips);
    }

    /** The same with another seed. */
    public SpreadSettings withSeed(long value) {
        return new SpreadSettings(
                samples,
                sampling,
                value,
                confidence,
                interval,
                width,
                part,
                phases,
                outputs,
                studies,
                target,
                falseTrips);
    }

    /** The same with another interval and the width to stop at. */
    public SpreadSettings withInterval(double level, Interval kind, double stopAt) {
        return new SpreadSettings(
                samples, sampling, seed, level, kind, stopAt, part, phases, outputs, studies, target, falseTrips);
    }

    /** The same for one part of the plan. */
    public SpreadSettings withPart(Part value) {
        return new SpreadSettings(
                samples,
                sampling,
                seed,
                confidence,
                interval,
                width,
                value,
                phases,
                outputs,
                studies,
                target,
                falseTrips);
    }

    /** The same for some phases and outputs only. */
    public SpreadSettings withScope(List<String> phaseNames, List<String> outputPlaces) {
        return new SpreadSettings(
                samples,
                sampling,
                seed,
                confidence,
                interval,
                width,
                part,
                phaseNames,
                outputPlaces,
                studies,
                target,
                falseTrips);
    }

    /** The same with other studies. */
    public SpreadSettings withStudies(Studies value) {
        return new SpreadSettings(
                samples, sampling, seed, confidence, interval, width, part, phases, outputs, value, target, falseTrips);
    }

    /** The same with what must be reached. */
    public SpreadSettings withAims(double probability, double falseTripsARun) {
        return new SpreadSettings(
                samples,
                sampling,
                seed,
                confidence,
                interval,
                width,
                part,
                phases,
                outputs,
                studies,
                probability,
                falseTripsARun);
    }
}

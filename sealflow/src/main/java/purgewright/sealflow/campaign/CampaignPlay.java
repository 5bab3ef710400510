package purgewright.sealflow.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import purgewright.sealflow.model.Campaign;

/**
 * A campaign played through: days, leak checks, holds, attempts, aborts, swaps of banks. One play without chance is the calendar;
 * many with chance give the distribution of what has to be ordered.
 *
 * <p>Rules: before each attempt the gas of the banks that one attempt can use, less the reserve, must cover an attempt as stated; else
 * the emptiest bank is swapped, and the next, until it does. An aborted attempt ends at a moment drawn evenly over its phases, then
 * the phases after an abort follow; it is made again. A phase lasts as stated times a factor drawn from a triangle of the stated
 * spread, a hold from the triangle of its shortest, likeliest and longest. Play i draws from the stream (seed, i) alone, so that the
 * result does not depend on threads or order.
 */
public final class CampaignPlay {
    /** More attempts than this for one run made would be no campaign; the play is given up. */
    private static final int MOST_TRIES = 1000;

    private final Campaign campaign;
    private final AttemptGas attempt;
    private final List<AttemptGas.Phase> afterAbort;
    private final List<Hold> holds;
    private final BankBook book;

    /**
     * A hold with its flow.
     *
     * @param stated as in the case
     * @param flow kg/s
     */
    public record Hold(Campaign.Hold stated, double flow) {}

    /**
     * @param campaign what is planned
     * @param attempt gas of the phases of one attempt
     * @param afterAbort gas of the phases after an abort
     * @param holds with their flow
     * @param book of the banks; null without bottles
     */
    public CampaignPlay(
            Campaign campaign, AttemptGas attempt, List<AttemptGas.Phase> afterAbort, List<Hold> holds, BankBook book) {
        this.campaign = campaign;
        this.attempt = attempt;
        this.afterAbort = List.copyOf(afterAbort);
        this.holds = List.copyOf(holds);
        this.book = book;
    }

    /** What happened at one point of the sequence. */
    public enum Kind {
        SWAP,
        LEAK_CHECK,
        HOLD,
        ATTEMPT,
        ABORT,
        SHORT
    }

    /**
     * One point of the sequence.
     *
     * @param day 1, 2, ...
     * @param attempt 1, 2, ...; 0 for what belongs to the campaign or the day
     * @param kind of thing
     * @param name of hold or leak check, number of the bank swapped, else empty
     * @param gas drawn, kg
     * @param held in each bank afterwards, kg
     * @param bottles put on
     */
    public record Step(int day, int attempt, Kind kind, String name, double gas, List<Double> held, int bottles) {}

    /**
     * One play.
     *
     * @param steps empty when they were not asked for
     * @param bottles ordered, the first filling of the banks included
     * @param swaps number of them
     * @param gas used, kg
     * @param attempts made, aborted ones included
     * @param days taken
     * @param shortOfGas true when an attempt outran the banks, reserve included
     * @param givenUp true when one attempt takes more than full banks, or hardly a run would ever be made
     */
    public record Play(
            List<Step> steps,
            int bottles,
            int swaps,
            double gas,
            int attempts,
            int days,
            boolean shortOfGas,
            boolean givenUp) {}

    /** Gas of one attempt as stated, holds and leak checks of each attempt included, kg. */
    public double need() {
        double sum = attempt.gas();
        for (Hold h : holds) {
            sum += h.stated().perAttempt() ? h.flow() * h.stated().duration() : 0;
        }
        for (Campaign.LeakCheck c : campaign.leakChecks()) {
            sum += c.every() == Campaign.Every.ATTEMPT ? c.gas() : 0;
        }
        return sum;
    }

    /** Gas that comes once a campaign as stated, kg. */
    public double once() {
        double sum = 0;
        for (Hold h : holds) {
            sum += h.stated().perAttempt() ? 0 : h.flow() * h.stated().duration();
        }
        for (Campaign.LeakCheck c : campaign.leakChecks()) {
            sum += c.every() == Campaign.Every.CAMPAIGN ? c.gas() : 0;
        }
        return sum;
    }

    /** The sequence without chance, from full banks. */
    public Play calendar() {
        return new Run(null).play();
    }

    /** Whole attempts from banks that hold so much, without a swap; the reserve is kept. */
    public int attempts(double[] held) {
        double[] at = held.clone();
        double reserve = reserve();
        int n = 0;
        while (book.usable(at) - reserve >= need() && n < MOST_TRIES) {
            book.draw(at, need());
            n++;
        }
        return n;
    }

    /** Gas kept back, kg. */
    public double reserve() {
        return campaign.reserve() * book.usable(book.full());
    }

    /** One play with chance. */
    public Play play(long seed, long number) {
        return new Run(new SplittableRandom(mix(seed * 0x9E3779B97F4A7C15L + mix(number)))).play();
    }

    /** Spreads neighbouring numbers over all bits (the finaliser of SplitMix64 [from memory]). */
    private static long mix(long z) {
        long a = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        long b = (a ^ (a >>> 27)) * 0x94D049BB133111EBL;
        return b ^ (b >>> 31);
    }

    /** One play; owned by one thread. */
    private final class Run {
        private final SplittableRandom random;
        private final List<Step> steps = new ArrayList<>();
        private final double[] held;
        private int bottles;
        private int swaps;
        private double gas;
        private boolean shortOfGas;

        Run(SplittableRandom random) {
            this.random = random;
            held = book == null ? new double[0] : book.full();
            bottles = book == null
                    ? 0
                    : book.banks().stream().mapToInt(b -> b.number()).sum();
        }

        Play play() {
            double perDay = Double.isNaN(campaign.attemptsPerDay()) ? 1 : campaign.attemptsPerDay();
            int made = 0;
            int tries = 0;
            int day = 0;
            boolean givenUp = false;
            while (made < campaign.attempts() && !givenUp) {
                int today = 1 + (int) Math.floor(tries / perDay + 1e-9);
                if (tries == 0) {
                    once();
                }
                if (today != day) {
                    day = today;
                    leakChecks(day, 0, Campaign.Every.DAY);
                }
                tries++;
                if (!ready(day, tries) || tries > MOST_TRIES * campaign.attempts()) {
                    givenUp = true;
                    break;
                }
                leakChecks(day, tries, Campaign.Every.ATTEMPT);
                for (Hold h : holds) {
                    if (h.stated().perAttempt()) {
                        take(day, tries, Kind.HOLD, h.stated().name(), h.flow() * duration(h.stated()));
                    }
                }
                made += attempt(day, tries) ? 1 : 0;
            }
            return new Play(List.copyOf(steps), bottles, swaps, gas, tries, Math.max(1, day), shortOfGas, givenUp);
        }

        private void once() {
            leakChecks(1, 0, Campaign.Every.CAMPAIGN);
            for (Hold h : holds) {
                if (!h.stated().perAttempt()) {
                    take(1, 0, Kind.HOLD, h.stated().name(), h.flow() * duration(h.stated()));
                }
            }
        }

        private void leakChecks(int day, int number, Campaign.Every every) {
            for (Campaign.LeakCheck c : campaign.leakChecks()) {
                if (c.every() == every) {
                    take(day, number, Kind.LEAK_CHECK, c.name(), c.gas());
                }
            }
        }

        /** Swaps until an attempt as stated is covered; false when full banks do not cover it. */
        private boolean ready(int day, int number) {
            if (book == null) {
                return true;
            }
            double[] full = book.full();
            for (int n = 0; n <= held.length; n++) {
                if (book.usable(held) - reserve() >= need()) {
                    return true;
                }
                if (n == held.length) {
                    break;
                }
                int b = book.emptiest(held);
                held[b] = full[b];
                bottles += book.banks().get(b).number();
                swaps++;
                keep(
                        day,
                        number,
                        Kind.SWAP,
                        "bank " + (b + 1),
                        0,
                        book.banks().get(b).number());
            }
            return false;
        }

        /** True when the attempt became a run. */
        private boolean attempt(int day, int number) {
            boolean abort = random != null && random.nextDouble() < campaign.abortProbability();
            double[] factor = new double[attempt.phases().size()];
            double total = 0;
            for (int i = 0; i < factor.length; i++) {
                factor[i] = factor();
                total += factor[i] * attempt.phases().get(i).duration();
            }
            double until = abort ? random.nextDouble() * total : total;
            double sum = 0;
            for (int i = 0; i < factor.length && until > 0; i++) {
                AttemptGas.Phase p = attempt.phases().get(i);
                double lasts = factor[i] * p.duration();
                // A phase that lasts longer keeps its flows and is drawn out in time.
                sum += factor[i] * p.gas(Math.min(p.duration(), until / factor[i]));
                until -= lasts;
            }
            if (abort) {
                for (AttemptGas.Phase p : afterAbort) {
                    sum += factor() * p.gas();
                }
            }
            boolean enough = take(day, number, abort ? Kind.ABORT : Kind.ATTEMPT, "", sum);
            return !abort && enough;
        }

        private double factor() {
            return random == null ? 1 : triangle(1 - campaign.phaseSpread(), 1, 1 + campaign.phaseSpread());
        }

        private double duration(Campaign.Hold h) {
            if (random == null) {
                return h.duration();
            }
            double low = Double.isNaN(h.shortest()) ? h.duration() : h.shortest();
            double high = Double.isNaN(h.longest()) ? h.duration() : h.longest();
            return triangle(low, h.duration(), high);
        }

        private double triangle(double low, double mode, double high) {
            if (!(high > low)) {
                return mode;
            }
            double u = random.nextDouble();
            double corner = (mode - low) / (high - low);
            return u < corner
                    ? low + Math.sqrt(u * (high - low) * (mode - low))
                    : high - Math.sqrt((1 - u) * (high - low) * (high - mode));
        }

        /** False when the banks did not have it. */
        private boolean take(int day, int number, Kind kind, String name, double amount) {
            double rest = book == null ? 0 : book.draw(held, amount);
            gas += amount - rest;
            boolean enough = !(rest > 1e-12 * amount);
            shortOfGas |= !enough;
            keep(day, number, enough ? kind : Kind.SHORT, name, amount - rest, 0);
            return enough;
        }

        private void keep(int day, int number, Kind kind, String name, double amount, int put) {
            if (random == null) {
                List<Double> now = new ArrayList<>();
                for (double h : held) {
                    now.add(h);
                }
                steps.add(new Step(day, number, kind, name, amount, List.copyOf(now), put));
            }
        }
    }
}

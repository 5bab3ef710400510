package purgewright.hazard.service;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.hazard.criteria.Criteria;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.finding.Scene;
import purgewright.hazard.finding.Verdict;
import purgewright.hazard.service.PlanResult.Again;
import purgewright.hazard.service.PlanResult.Alternative;
import purgewright.hazard.service.PlanResult.Order;
import purgewright.hazard.service.PlanResult.PlanEvent;
import purgewright.hazard.service.PlanResult.Spread;
import purgewright.hazard.service.PlanResult.SupplyUse;
import purgewright.hazard.service.PlanResult.Use;
import purgewright.sealflow.campaign.AttemptGas;
import purgewright.sealflow.campaign.Bank;
import purgewright.sealflow.campaign.BankBook;
import purgewright.sealflow.campaign.CampaignPlay;
import purgewright.sealflow.campaign.DutyClock;
import purgewright.sealflow.campaign.DutyRun;
import purgewright.sealflow.campaign.DutyRun.Instant;
import purgewright.sealflow.campaign.Leg;
import purgewright.sealflow.campaign.SupplyFeed;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.casefile.CaseException;
import purgewright.sealflow.casefile.CaseProblem;
import purgewright.sealflow.model.Campaign;
import purgewright.sealflow.model.Case;
import purgewright.sealflow.model.CaseValue;
import purgewright.sealflow.model.Supply;
import purgewright.sealflow.network.NetworkSolver;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolverSettings;
import purgewright.sealflow.supply.BottleState;
import purgewright.sealflow.supply.Bottles;
import purgewright.sealflow.supply.GasLine;

/**
 * The campaign: how many bottles, when they are swapped, what they cost, and whether one more attempt can be made with what the gauges
 * show. Threads may share one service. An interrupt ends the work early with what it has.
 */
public final class PlanService {
    private static final double SECONDS_PER_DAY = 86_400;
    private static final int REDLINE_STEPS = 9;

    /** Ratio of pressures tried above that at the end of a phase. */
    private static final double HIGHER = 1.15;

    private final PropertyEngine engine;
    private final RunService runs;
    private final PhaseSolve points;

    /** A service on the network solver. */
    public PlanService(PropertyEngine engine) {
        this.engine = engine;
        this.runs = new RunService(engine);
        this.points = new PhaseSolve(engine, new NetworkSolver(engine, SolverSettings.DEFAULT)::solve);
    }

    /**
     * Plans.
     *
     * @param folder in which boundary histories are looked for; null when the case was never a file
     * @throws CaseException when the case has no campaign, no supply, or no duty
     */
    public PlanResult plan(CaseDocument document, Path folder, PlanSettings settings, Progress progress) {
        Case whole = document.toCase(engine);
        Campaign campaign = whole.campaign();
        Supply supply = whole.supply();
        if (campaign == null) {
            throw missing("NO_CAMPAIGN", "/campaign", "the case has no campaign", "\"campaign\": {\"attempts\": 4}");
        }
        if (supply == null) {
            throw missing("NO_SUPPLY", "/supply", "the case says nothing of the supply", "bottles, plant or liquid");
        }
        return new Plan(document, whole, campaign, supply, folder, settings, progress).make();
    }

    private static CaseException missing(String key, String place, String message, String suggestion) {
        return new CaseException(List.of(new CaseProblem(key, place, 0, 0, message, suggestion)));
    }

    /** One plan; owned by one thread. */
    private final class Plan {
        private final CaseDocument document;
        private final Case whole;
        private final Campaign campaign;
        private final Supply supply;
        private final Path folder;
        private final PlanSettings settings;
        private final Progress progress;
        private final PureFluid gas;
        private final double air;
        private final List<String> notes = new ArrayList<>();
        /** Why the order is no order, though nothing is known to be too little. */
        private final List<String> unestablished = new ArrayList<>();
        /** What other fixed cavities give in each phase that was run. */
        private final Map<String, List<OtherSources.Given>> others = new LinkedHashMap<>();

        Plan(
                CaseDocument document,
                Case whole,
                Campaign campaign,
                Supply supply,
                Path folder,
                PlanSettings settings,
                Progress progress) {
            this.document = document;
            this.whole = whole;
            this.campaign = campaign;
            this.supply = supply;
            this.folder = folder;
            this.settings = settings;
            this.progress = progress;
            gas = RunService.gas(whole, supply, engine);
            air = whole.surroundings().temperature();
        }

        PlanResult make() {
            progress.at(0, "attempt");
            List<Leg> legs = runs.legs(document, whole, folder, campaign.phases(), Map.of());
            DutyClock clock = new DutyClock(legs);
            double total = clock.start(legs.size());
            DutyRun.Result run = runs.duty(
                    whole,
                    clock,
                    RunSettings.DEFAULT.withJudge(false),
                    i -> progress.at(0.5 * i.time() / total, legs.get(i.leg()).name()));
            if (run.outcome() == DutyRun.Outcome.CANCELLED) {
                throw new CancellationException(
                        "cancelled before one attempt was known: there is nothing to plan with");
            }
            if (run.outcome() != DutyRun.Outcome.FINISHED) {
                throw missing("NOT_CONVERGED", "/duty", "one attempt cannot be run: " + run.note(), "look at run");
            }
            AttemptGas attempt = AttemptGas.of(clock, run.instants());
            List<OtherSources.Given> besides = OtherSources.of(clock, run.instants(), points);
            for (Leg leg : legs) {
                others.put(leg.name(), besides);
            }
            Map<String, AttemptGas.Phase> known = new LinkedHashMap<>();
            attempt.phases().forEach(p -> known.put(p.name(), p));
            List<AttemptGas.Phase> after = new ArrayList<>();
            List<String> safing = campaign.afterAbort().isEmpty()
                    ? List.of(legs.get(legs.size() - 1).name())
                    : campaign.afterAbort();
            for (String phase : safing) {
                after.add(phase(phase, known));
            }
            List<CampaignPlay.Hold> holds = new ArrayList<>();
            for (Campaign.Hold h : campaign.holds()) {
                AttemptGas.Phase p = phase(h.phase() == null ? legs.get(0).name() : h.phase(), known);
                holds.add(new CampaignPlay.Hold(h, p.gas() / p.duration()));
            }
            progress.at(0.55, "bottles");
            Least least = least(clock, run);
            double[] redline = settings.redline() ? redline(legs, run) : new double[] {Double.NaN, Double.NaN};
            BankBook book = null;
            if (supply.bottles() != null) {
                double need = attempt.gas();
                double inlet = Math.max(least.pressure(), Double.isNaN(redline[1]) ? 0 : redline[1]);
                book = new BankBook(
                        Bank.of(supply.bottles(), gas), inlet, need / Math.max(attempt.duration(), 1e-9), air);
                least = new Least(
                        inlet, inlet > least.pressure() ? "the first criterion lost" : least.reason(), least.dropout());
            }
            CampaignPlay play = new CampaignPlay(campaign, attempt, after, holds, book);
            CampaignPlay.Play calendar = play.calendar();
            if (calendar.givenUp() && book != null) {
                notes.add(
                        "One attempt with its holds and the reserve takes more than full banks give: more bottles, or a lower purge.");
            }
            Map<String, Double> elsewhere = elsewhere(besides, holds, legs, known);
            Use use = use(attempt, holds, play, elsewhere);
            SupplyUse bank = supplyUse(book, play, least, redline[1]);
            tellAssumptions();
            Spread spread = spread(play);
            boolean complete = spread == null || spread.samples() >= settings.samples();
            List<Alternative> ways = alternatives(calendar, attempt);
            others.values().stream()
                    .flatMap(List::stream)
                    .filter(OtherSources.Given::feeds)
                    .map(OtherSources.Given::cavity)
                    .distinct()
                    .forEach(c ->
                            unestablished.add(c + " feeds the barriers besides, and the case states no supply for it"));
            Again again = settings.readings().isEmpty() ? null : again(attempt, holds, play, book);
            boolean supplied = supplied(book, calendar, ways);
            boolean enough = supplied && unestablished.isEmpty();
            unestablished.forEach(why -> notes.add("Not established: " + why + "."));
            PlanResult result = new PlanResult(
                    complete,
                    gas.name(),
                    use,
                    bank,
                    events(calendar, book),
                    order(calendar, book, enough),
                    spread,
                    again,
                    ways,
                    supplied ? List.copyOf(unestablished) : List.of(),
                    List.copyOf(notes));
            progress.at(1, "done");
            return result;
        }

        /** Whether what is stated covers the campaign as far as it is counted. */
        private boolean supplied(BankBook book, CampaignPlay.Play calendar, List<Alternative> ways) {
            // Beside bottles the other ways are compared only; alone, the first of them is the supply.
            boolean enough = book != null
                    ? !calendar.givenUp() && !calendar.shortOfGas()
                    : ways.isEmpty() || ways.stream().anyMatch(Alternative::enough);
            if (!enough && book == null) {
                notes.add(
                        "The supply as stated is not enough, or not stated to be: the gas named is what the campaign would use.");
            }
            return enough;
        }

        private void tellAssumptions() {
            if (Double.isNaN(campaign.attemptsPerDay())) {
                notes.add("Attempts per day are not stated: one a day is taken.");
            }
            notes.add("Between attempts the bottles come back to the temperature of the surroundings.");
            if (!Double.isNaN(campaign.bottlePrice()) && !Double.isNaN(campaign.gasPrice())) {
                notes.add("The price of a bottle is that of a filled one: the gas price is not added for bottles.");
            }
        }

        /** A phase of the attempt, else run by itself. */
        private AttemptGas.Phase phase(String name, Map<String, AttemptGas.Phase> known) {
            AttemptGas.Phase found = known.get(name);
            if (found == null) {
                DutyClock clock = new DutyClock(runs.legs(document, whole, folder, List.of(name), Map.of()));
                DutyRun.Result run = runs.duty(whole, clock, RunSettings.DEFAULT.withJudge(false), null);
                if (run.outcome() != DutyRun.Outcome.FINISHED) {
                    throw missing(
                            "NOT_CONVERGED", "/duty/" + name, "the phase cannot be run: " + run.note(), "look at run");
                }
                found = AttemptGas.of(clock, run.instants()).phases().get(0);
                others.put(name, OtherSources.of(clock, run.instants(), points));
                known.put(name, found);
            }
            return found;
        }

        /** Least bottle pressure without looking at criteria. */
        private record Least(double pressure, String reason, double dropout) {}

        private Least least(DutyClock clock, DutyRun.Result run) {
            if (supply.bottles() == null) {
                return new Least(Double.NaN, "no bottles", Double.NaN);
            }
            double dropout = Double.NaN;
            for (Instant i : run.instants()) {
                if (supply.regulator() != null && i.flow() > 0) {
                    double set = clock.setPressure(i.leg(), i.time() - clock.start(i.leg()));
                    double p = SupplyFeed.leastInlet(supply, set, i.flow());
                    dropout = Double.isNaN(dropout) ? p : Math.max(dropout, p);
                }
            }
            double stated = supply.bottles().unusablePressure();
            if (!Double.isNaN(stated) && !(stated < dropout)) {
                return new Least(stated, "the stated unusable pressure", dropout);
            }
            if (Double.isNaN(dropout)) {
                notes.add(
                        "Neither a regulator nor an unusable pressure is stated: a bottle counts as empty at 10 bar [common practice].");
                if (!settings.redline()) {
                    unestablished.add(
                            "no regulator and no unusable pressure are stated, and down to which pressure of the bottles the barrier holds was not"
                                    + " looked for");
                }
                return new Least(1e6, "10 bar left in a bottle [common practice]", Double.NaN);
            }
            return new Least(dropout, "the regulator's inlet margin at its greatest flow", dropout);
        }

        /**
         * Least supply pressure at which every criterion is still met, the worst of the phases, and the bottle pressure that gives it with
         * the regulator wide open: by bisection from the pressure of the run downwards.
         */
        private double[] redline(List<Leg> legs, DutyRun.Result run) {
            double cavity = Double.NaN;
            double bottle = Double.NaN;
            String name = DutyRun.cavity(whole, supply);
            Set<String> tooLow = new LinkedHashSet<>();
            for (int leg = 0; leg < legs.size(); leg++) {
                Instant last = null;
                for (Instant i : run.instants()) {
                    last = i.leg() == leg ? i : last;
                }
                if (last == null || !(last.flow() > 0)) {
                    continue;
                }
                progress.at(0.6 + 0.3 * leg / legs.size(), "redline");
                Instant at = last;
                double high = at.supplyPressure();
                if (!meets(at, legs.get(leg), name, high)) {
                    high = higher(at, legs.get(leg), name);
                    if (Double.isNaN(high)) {
                        tooLow.add(legs.get(leg).name());
                        continue;
                    }
                }
                double low = Math.max(0.05 * high, 1.001 * whole.surroundings().pressure());
                for (int n = 0; n < REDLINE_STEPS; n++) {
                    double middle = Math.sqrt(low * high);
                    if (meets(at, legs.get(leg), name, middle)) {
                        high = middle;
                    } else {
                        low = middle;
                    }
                }
                if (!(high <= cavity)) {
                    cavity = high;
                    bottle = high
                            + lineLoss(at, high)
                            + (supply.regulator() == null
                                    ? 0
                                    : supply.regulator().minimumInletMargin());
                }
            }
            if (!tooLow.isEmpty() && supply.regulator() == null && supply.bottles() != null) {
                unestablished.add("at the end of " + String.join(", ", tooLow)
                        + " a criterion is met neither at the pressure of the bottles then nor at a higher one up to full bottles, so that down to"
                        + " which pressure they are of use is not known");
            } else if (!tooLow.isEmpty()) {
                notes.add(
                        "At the end of " + String.join(", ", tooLow)
                                + " a criterion is not met even at the regulated pressure: look at run; the redline leaves it out.");
            }
            return new double[] {cavity, bottle};
        }

        /** Without a regulator bottles may give more than they do at the end of a phase, up to their filling pressure: where every criterion is met; NaN when nowhere. */
        private double higher(Instant at, Leg leg, String cavity) {
            if (supply.regulator() != null || supply.bottles() == null) {
                return Double.NaN;
            }
            double full = supply.bottles().fillingPressure();
            double p = at.supplyPressure();
            while (p < full) {
                p = Math.min(full, HIGHER * p);
                if (meets(at, leg, cavity, p)) {
                    return p;
                }
            }
            return Double.NaN;
        }

        private boolean meets(Instant at, Leg leg, String cavity, double pressure) {
            Case model = CaseValue.cavity(at.model(), cavity, c -> CaseValue.state(c, pressure, c.temperature()));
            PhaseSolve.Point p = points.judge(model, at.solve(), Scene.of(leg.name()), Criteria.of(model.criteria()));
            for (Finding f : p.findings()) {
                if (f.verdict() != Verdict.HOLDS && f.verdict() != Verdict.THIN) {
                    return false;
                }
            }
            return p.solve() instanceof Converged;
        }

        private double lineLoss(Instant at, double pressure) {
            GasLine line = SupplyFeed.line(supply);
            if (line == null) {
                return 0;
            }
            double flow = at.flow() * pressure / at.supplyPressure();
            FluidState inlet = gas.atPressureTemperature(pressure, air);
            double end = line.outlet(inlet, flow);
            return Double.isNaN(end) ? 0 : pressure - end;
        }

        /** What other fixed cavities give in one attempt with its holds, kg by cavity; each is told of. */
        private Map<String, Double> elsewhere(
                List<OtherSources.Given> besides,
                List<CampaignPlay.Hold> holds,
                List<Leg> legs,
                Map<String, AttemptGas.Phase> known) {
            Map<String, OtherSources.Given> first = new LinkedHashMap<>();
            Map<String, Double> gas = new LinkedHashMap<>();
            for (OtherSources.Given g : besides) {
                first.put(g.cavity(), g);
                gas.merge(g.cavity(), g.gas(), Double::sum);
            }
            for (CampaignPlay.Hold h : holds) {
                String phase = h.stated().phase() == null
                        ? legs.get(0).name()
                        : h.stated().phase();
                if (h.stated().perAttempt()) {
                    double share = h.stated().duration() / known.get(phase).duration();
                    for (OtherSources.Given g : others.get(phase)) {
                        first.putIfAbsent(g.cavity(), g);
                        gas.merge(g.cavity(), share * g.byPhase().getOrDefault(phase, 0.0), Double::sum);
                    }
                }
            }
            gas.values().removeIf(kg -> !(kg > 0));
            gas.forEach((cavity, kg) -> notes.add(first.get(cavity).words(kg, " in each attempt with its holds")));
            return gas;
        }

        private Use use(
                AttemptGas attempt, List<CampaignPlay.Hold> holds, CampaignPlay play, Map<String, Double> elsewhere) {
            Map<String, Double> by = new LinkedHashMap<>();
            attempt.phases().forEach(p -> by.merge(p.name(), p.gas(), Double::sum));
            double duration = attempt.duration();
            for (CampaignPlay.Hold h : holds) {
                by.merge(h.stated().name(), h.flow() * h.stated().duration(), Double::sum);
                duration += h.stated().perAttempt() ? h.stated().duration() : 0;
            }
            campaign.leakChecks()
                    .forEach(c -> by.merge(
                            c.name() + (c.every() == Campaign.Every.DAY ? ", each day" : ""), c.gas(), Double::sum));
            return new Use(by, play.need(), play.once(), duration, attempt.peakFlow(), elsewhere);
        }

        private SupplyUse supplyUse(BankBook book, CampaignPlay play, Least least, double redline) {
            if (book == null) {
                return new SupplyUse(
                        0, 0, Double.NaN, Double.NaN, Double.NaN, least.reason(), Double.NaN, redline, Double.NaN, 0);
            }
            return new SupplyUse(
                    supply.bottles().number(),
                    supply.bottles().banks(),
                    Arrays.stream(book.full()).sum(),
                    book.usable(book.full()),
                    least.pressure(),
                    least.reason(),
                    least.dropout(),
                    redline,
                    book.startPressure(play.need()),
                    play.attempts(book.full()));
        }

        private List<PlanEvent> events(CampaignPlay.Play calendar, BankBook book) {
            List<PlanEvent> out = new ArrayList<>();
            for (CampaignPlay.Step s : calendar.steps()) {
                double[] held =
                        s.held().stream().mapToDouble(Double::doubleValue).toArray();
                out.add(new PlanEvent(
                        s.day(),
                        s.attempt(),
                        s.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '),
                        s.name(),
                        s.gas(),
                        book == null ? List.of() : book.pressures(held),
                        Arrays.stream(held).sum(),
                        s.bottles()));
            }
            return List.copyOf(out);
        }

        private Order order(CampaignPlay.Play play, BankBook book, boolean enough) {
            double bought = book == null
                    ? play.gas()
                    : play.bottles() * book.full()[0] / book.banks().get(0).number();
            double costGas = Double.NaN;
            if (book != null && !Double.isNaN(campaign.bottlePrice())) {
                costGas = play.bottles() * campaign.bottlePrice();
            } else if (!Double.isNaN(campaign.gasPrice())) {
                costGas = bought * campaign.gasPrice();
            }
            double rental = Double.NaN;
            if (book != null && !Double.isNaN(campaign.bottleRental())) {
                double time =
                        Double.isNaN(campaign.rentalTime()) ? play.days() * SECONDS_PER_DAY : campaign.rentalTime();
                rental = play.bottles() * campaign.bottleRental() * time;
            }
            double cost = Double.isNaN(costGas) ? rental : Double.isNaN(rental) ? costGas : costGas + rental;
            return new Order(
                    play.bottles(),
                    play.swaps(),
                    play.gas(),
                    bought,
                    bought - play.gas(),
                    campaign.currency(),
                    costGas,
                    rental,
                    cost,
                    play.days(),
                    enough);
        }

        private Spread spread(CampaignPlay play) {
            boolean chance = campaign.abortProbability() > 0
                    || campaign.phaseSpread() > 0
                    || campaign.holds().stream()
                            .anyMatch(h -> !Double.isNaN(h.shortest()) || !Double.isNaN(h.longest()));
            if (!chance || settings.samples() == 0) {
                return null;
            }
            List<CampaignPlay.Play> plays = new ArrayList<>();
            for (int n = 0; n < settings.samples(); n++) {
                if ((n & 127) == 0) {
                    if (Thread.currentThread().isInterrupted()) {
                        break;
                    }
                    progress.at(0.9 + 0.1 * n / settings.samples(), "campaigns");
                }
                plays.add(play.play(settings.seed(), n));
            }
            if (plays.isEmpty()) {
                return null;
            }
            int[] bottles =
                    plays.stream().mapToInt(CampaignPlay.Play::bottles).sorted().toArray();
            double[] used =
                    plays.stream().mapToDouble(CampaignPlay.Play::gas).sorted().toArray();
            int[] tries = plays.stream()
                    .mapToInt(CampaignPlay.Play::attempts)
                    .sorted()
                    .toArray();
            Map<Integer, Integer> histogram = new TreeMap<>();
            for (int b : bottles) {
                histogram.merge(b, 1, Integer::sum);
            }
            int size = plays.size();
            return new Spread(
                    size,
                    settings.seed(),
                    bottles[rank(size, 0.5)],
                    bottles[rank(size, 0.9)],
                    bottles[rank(size, 0.95)],
                    Arrays.stream(bottles).average().orElse(Double.NaN),
                    java.util.Collections.unmodifiableMap(histogram),
                    used[rank(size, 0.5)],
                    used[rank(size, 0.9)],
                    used[rank(size, 0.95)],
                    tries[rank(size, 0.95)],
                    (int) plays.stream().filter(CampaignPlay.Play::shortOfGas).count(),
                    (int) plays.stream().filter(CampaignPlay.Play::givenUp).count());
        }

        private int rank(int size, double share) {
            return Math.max(0, (int) Math.ceil(share * size - 1e-9) - 1);
        }

        /** One more attempt from what the gauges show: the banks' own equations along the attempt's flow. */
        private Again again(AttemptGas attempt, List<CampaignPlay.Hold> holds, CampaignPlay play, BankBook book) {
            List<BottleState> states = RunService.banks(supply, gas, settings.readings());
            double[] held = states.stream().mapToDouble(BottleState::mass).toArray();
            double inBanks = Arrays.stream(held).sum();
            double usable = book.usable(held);
            List<AttemptGas.Phase> first = new ArrayList<>();
            for (Campaign.LeakCheck c : campaign.leakChecks()) {
                if (c.every() == Campaign.Every.ATTEMPT) {
                    // A leak check is no matter of seconds; a minute is quick enough to be on the cold side.
                    first.add(AttemptGas.Phase.steady(c.name(), 60, c.gas() / 60));
                }
            }
            for (CampaignPlay.Hold h : holds) {
                if (h.stated().perAttempt()) {
                    first.add(AttemptGas.Phase.steady(
                            h.stated().name(), h.stated().duration(), h.flow()));
                }
            }
            double end = draw(book, new ArrayList<>(states), attempt.after(first));
            double reserve = play.reserve();
            int attempts = play.attempts(held);
            boolean covered = usable - play.need() >= reserve;
            boolean lasts = !Double.isNaN(end) && covered;
            boolean answer = lasts && unestablished.isEmpty();
            String what;
            if (lasts && !answer) {
                what = "not established: the banks cover what is counted, but " + String.join("; ", unestablished);
            } else if (answer) {
                what = "yes: the banks cover one more attempt and the reserve";
            } else if (Double.isNaN(end)) {
                what = "no: the banks fall below their least pressure before the attempt is over; swap bank "
                        + (book.emptiest(held) + 1);
            } else {
                what = "no: the attempt could be made, but not with the reserve kept; swap bank "
                        + (book.emptiest(held) + 1);
            }
            return new Again(answer, settings.readings(), inBanks, usable, play.need(), reserve, end, attempts, what);
        }

        /** Pressure of the bank in use at the end; NaN when all banks fall below their least pressure. */
        private double draw(BankBook book, List<BottleState> states, AttemptGas attempt) {
            double least = book.least();
            int b = 0;
            for (AttemptGas.Phase p : attempt.phases()) {
                for (int i = 1; i < p.time().size(); i++) {
                    double dt = p.time().get(i) - p.time().get(i - 1);
                    if (!(dt > 0)) {
                        continue;
                    }
                    BottleState next = drawn(
                            book.banks().get(b),
                            states.get(b),
                            p.flow().get(i - 1),
                            p.flow().get(i),
                            dt);
                    while (next == null || next.pressure() < least) {
                        // The step that crosses the least pressure is taken from the next bank as a whole.
                        b++;
                        if (b >= states.size()) {
                            return Double.NaN;
                        }
                        next = drawn(
                                book.banks().get(b),
                                states.get(b),
                                p.flow().get(i - 1),
                                p.flow().get(i),
                                dt);
                    }
                    states.set(b, next);
                }
            }
            return states.get(b).pressure();
        }

        private BottleState drawn(Bottles bank, BottleState from, double first, double last, double dt) {
            try {
                return bank.draw(from, first, last, dt, air).state();
            } catch (IllegalArgumentException | PropertyException e) {
                return null;
            }
        }

        private List<Alternative> alternatives(CampaignPlay.Play calendar, AttemptGas attempt) {
            List<Alternative> out = new ArrayList<>();
            double wanted = wantedPressure();
            double peak = attempt.peakFlow();
            Supply.Plant plant = supply.plant();
            if (plant != null) {
                List<String> lacks = new ArrayList<>();
                if (plant.pressure() < wanted) {
                    lacks.add("its pressure is below what the regulator needs");
                }
                if (plant.greatestFlow() < peak) {
                    lacks.add("it cannot give the greatest purge flow");
                }
                if (Double.isNaN(plant.greatestFlow())) {
                    lacks.add("its greatest flow is not stated");
                }
                out.add(new Alternative(
                        "plant",
                        lacks.isEmpty(),
                        calendar.gas(),
                        "kg",
                        lacks.isEmpty() ? "the main carries every phase" : String.join("; ", lacks)));
            }
            Supply.Liquid liquid = supply.liquid();
            if (liquid != null) {
                out.add(liquid(liquid, calendar, wanted, peak));
            }
            return List.copyOf(out);
        }

        private Alternative liquid(Supply.Liquid liquid, CampaignPlay.Play calendar, double wanted, double peak) {
            double density;
            try {
                density = gas.atPressureQuality(liquid.pressure(), 0).density();
            } catch (PropertyException e) {
                return new Alternative(
                        "liquid",
                        false,
                        Double.NaN,
                        "m3",
                        gas.name()
                                + " does not boil at the pressure of the tank: above its critical point, or too cold");
            }
            double volume = calendar.gas() / density + liquid.dailyLoss() * liquid.volume() * calendar.days();
            List<String> lacks = new ArrayList<>();
            if (liquid.pressure() < wanted) {
                lacks.add("the tank's pressure is below what the purge needs: a pump, or another tank");
            }
            if (volume > liquid.volume()) {
                lacks.add("the tank must be filled again during the campaign");
            }
            if (liquid.vaporiserFlow() < peak) {
                lacks.add("the vaporiser cannot warm the greatest purge flow");
            }
            if (Double.isNaN(liquid.vaporiserFlow())) {
                lacks.add("the vaporiser's flow is not stated");
            }
            return new Alternative(
                    "liquid",
                    lacks.isEmpty(),
                    volume,
                    "m3",
                    lacks.isEmpty()
                            ? "the tank carries the campaign, its boil-off included"
                            : String.join("; ", lacks));
        }

        /** Pressure that a steady supply must have. */
        private double wantedPressure() {
            Supply.Regulator r = supply.regulator();
            return r == null
                    ? whole.cavity(DutyRun.cavity(whole, supply)).pressure()
                    : r.setPressure() + r.minimumInletMargin();
        }
    }
}

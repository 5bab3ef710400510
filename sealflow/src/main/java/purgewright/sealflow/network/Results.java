package purgewright.sealflow.network;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.mixture.StreamMixer;
import purgewright.sealflow.Notice;
import purgewright.sealflow.gap.RunningGap;
import purgewright.sealflow.model.Cavity;
import purgewright.sealflow.model.PassageSpec;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.Convergence;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.passage.Passage;
import purgewright.sealflow.passage.PassageFlow;
import purgewright.sealflow.rotating.CoreSwirl;
import purgewright.sealflow.rotating.DiscFriction;
import purgewright.sealflow.rotating.ForcedVortex;

/** From the arrays of a solved network to the result that others read. */
final class Results {
    static final String CORE_SWIRL = "core swirl from the through-flow";

    /** Condensed share of a cavity's mass that is worth a notice. */
    private static final double CONDENSED = 1e-6;
    /** Share of the density by which a mixture may be off, by estimate, before it is said [invented: what a reader would want to know]. */
    private static final double UNLIKE = 0.02;

    private final Network net;
    private final Iterate x;

    Results(Network net, Iterate x) {
        this.net = net;
        this.x = x;
    }

    Converged converged(Convergence convergence) {
        return converged(convergence, null);
    }

    /** @param memory null when the result is not to be started from */
    Converged converged(Convergence convergence, SlopeMemory memory) {
        fillDeadEnds();
        double[] net0 = new double[net.cavities];
        Map<String, PassageState> passages = new LinkedHashMap<>();
        List<Notice> notices = new ArrayList<>();
        int[] linkOf = new int[net.model.passages().size()];
        Arrays.fill(linkOf, -1);
        for (int l = 0; l < net.links; l++) {
            linkOf[net.specOf[l]] = l;
        }
        for (int j = 0; j < linkOf.length; j++) {
            PassageSpec spec = net.model.passages().get(j);
            PassageState p = passage(spec, j, linkOf[j], net0);
            passages.put(spec.name(), p);
            noticesOf(p, notices);
        }
        Map<String, CavityState> cavities = new LinkedHashMap<>();
        for (int i = 0; i < net.cavities; i++) {
            CavityState c = cavity(i, net0[i]);
            cavities.put(c.name(), c);
            noticesOf(i, c, notices);
        }
        stirringNotice(notices);
        return new Converged(convergence, cavities, passages, List.copyOf(notices), memory);
    }

    /** States for a look only; cavities that could not be computed are left out. */
    Map<String, CavityState> best() {
        Map<String, CavityState> cavities = new LinkedHashMap<>();
        for (int i = 0; i < net.cavities; i++) {
            if (x.state[i] != null) {
                cavities.put(net.cavity[i].name(), cavity(i, x.mass[i]));
            }
        }
        return cavities;
    }

    /** A dead end has the pressure that its one passage shows it, and the fluid behind it. */
    private void fillDeadEnds() {
        for (int i : net.deadEnds) {
            int l = net.leash[i];
            int other = net.from[l] == i ? net.to[l] : net.from[l];
            FluidState shown = x.endState(other, l, x.state[other]);
            double p = shown.pressure();
            double r = net.radius[l];
            double reference = net.cavity[i].radius();
            if (x.swirl[i] != 0 && !Double.isNaN(r) && !Double.isNaN(reference) && r != reference) {
                p = ForcedVortex.pressure(shown, x.swirl[i], r, reference);
            }
            x.set(i, p, x.enthalpy[other], x.fraction[other]);
            x.state[i] = x.fluid[i].atPressureEnthalpy(p, x.enthalpy[other]);
        }
    }

    private CavityState cavity(int i, double taken) {
        double[] y = x.fraction[i];
        Map<String, Double> streams = new LinkedHashMap<>();
        for (int k = 0; k < net.streams; k++) {
            streams.put(net.mixer.name(k), y[k]);
        }
        return new CavityState(
                net.cavity[i].name(),
                net.fixed[i],
                x.state[i],
                streams,
                net.mixer.speciesMassFractions(y),
                net.mixer.speciesMoleFractions(y),
                net.fixed[i] ? 0 : x.windage[i],
                taken);
    }

    private PassageState passage(PassageSpec spec, int j, int l, double[] taken) {
        int a = index(spec.from());
        int b = index(spec.to());
        Map<String, Double> streamFlows = new LinkedHashMap<>();
        if (l < 0 || !net.flowing[l]) {
            for (int k = 0; k < net.streams; k++) {
                streamFlows.put(net.mixer.name(k), 0.0);
            }
            FluidState from = l < 0 ? x.state[a] : x.endState(a, l, x.state[a]);
            FluidState to = l < 0 ? x.state[b] : x.endState(b, l, x.state[b]);
            PassageFlow none = new PassageFlow(
                    0, false, 0, Math.min(from.pressure(), to.pressure()), 0, 0, new double[0], List.of());
            String higher = from.pressure() >= to.pressure() ? spec.from() : spec.to();
            return new PassageState(
                    spec.name(),
                    spec.from(),
                    spec.to(),
                    net.kind[j],
                    none,
                    from,
                    to,
                    net.gap[j],
                    net.surfaceSpeed[j],
                    higher,
                    streamFlows);
        }
        for (int k = 0; k < net.streams; k++) {
            streamFlows.put(net.mixer.name(k), x.streamFlow[l][k]);
        }
        taken[a] -= x.total[l];
        taken[b] += x.total[l];
        PassageFlow f = x.flow[l];
        List<Notice> placed = new ArrayList<>();
        for (Notice n : f.notices()) {
            placed.add(new Notice(n.key(), "/passages/" + spec.name(), n.values()));
        }
        Passage.Film film = net.passage[l].film(x.endFrom[l], x.endTo[l]);
        if (film != null) {
            filmNotices(spec, film, placed);
        }
        double reaches = net.passage[l].interfaceRadius(x.endFrom[l], x.endTo[l]);
        if (!Double.isNaN(reaches)) {
            estimate(spec, spec.type(), "interface radius, m", reaches, placed);
        }
        Map<String, Double> bulk = new LinkedHashMap<>();
        for (int k = 0; k < net.streams; k++) {
            bulk.put(net.mixer.name(k), x.carriedFractions(l)[k]);
        }
        // The flow that is reported is all that crosses: what the passage's law gives and what diffuses on top.
        PassageFlow all = new PassageFlow(
                x.total[l],
                f.choked(),
                f.gapVelocity(),
                f.throatPressure(),
                f.reynolds(),
                f.heat(),
                f.heatAtTo(),
                f.stagePressures(),
                placed);
        return new PassageState(
                spec.name(),
                spec.from(),
                spec.to(),
                net.kind[j],
                all,
                x.endFrom[l],
                x.endTo[l],
                film == null ? net.gap[j] : new RunningGap(film.gap(), Double.NaN, Double.NaN),
                net.surfaceSpeed[j],
                x.bulk[l] >= 0 ? spec.from() : spec.to(),
                streamFlows,
                new PassageState.Bulk(x.bulk[l], bulk, x.carriedEnthalpy(l)));
    }

    /** Model named in the notices of a face's film. */
    static final String FILM = "face film";

    /** What the film's force on each face is called there. */
    static final String FILM_FORCE = "film force on each face, N";

    private static void filmNotices(PassageSpec spec, Passage.Film film, List<Notice> notices) {
        estimate(spec, FILM, FILM_FORCE, film.force() * spec.count(), notices);
        if (film.liftOffSpeed() > 0) {
            estimate(spec, FILM, "lift-off speed, rad/s", film.liftOffSpeed(), notices);
        }
        if (film.liftOffPressure() > 0) {
            estimate(spec, FILM, "lift-off pressure difference, Pa", film.liftOffPressure(), notices);
        }
    }

    private static void estimate(PassageSpec spec, String model, String what, double value, List<Notice> notices) {
        notices.add(new Notice(
                Notice.Key.ESTIMATE,
                "/passages/" + spec.name(),
                Map.of("model", model, "constant", what, "value", value)));
    }

    private int index(String name) {
        for (int i = 0; i < net.cavities; i++) {
            if (net.cavity[i].name().equals(name)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no cavity '" + name + "'");
    }

    private void noticesOf(PassageState p, List<Notice> notices) {
        String place = "/passages/" + p.name();
        notices.addAll(p.flow().notices());
        boolean said = p.flow().notices().stream().anyMatch(n -> n.key() == Notice.Key.CHOKED);
        if (p.flow().choked() && !said) {
            notices.add(new Notice(
                    Notice.Key.CHOKED, place, Map.of("throatPressure", p.flow().throatPressure())));
        }
        RunningGap gap = p.gap();
        if (gap != null && gap.least() < gap.contactLimit()) {
            notices.add(new Notice(Notice.Key.RUB, place, Map.of("least", gap.least(), "limit", gap.contactLimit())));
        }
    }

    private void noticesOf(int i, CavityState c, List<Notice> notices) {
        String place = "/cavities/" + c.name();
        FluidState s = c.state();
        if (s.extrapolated()) {
            notices.add(new Notice(
                    Notice.Key.EXTRAPOLATED,
                    place,
                    Map.of("fluid", s.fluid().name(), "temperature", s.temperature(), "pressure", s.pressure())));
        }
        unlikeNotice(s, place, notices);
        StreamMixer.PhaseSplit split = split(s);
        if (split != null && !c.fixed()) {
            for (Map.Entry<String, Double> e : new TreeMap<>(split.condensedMassFractions()).entrySet()) {
                if (e.getValue() > CONDENSED) {
                    notices.add(new Notice(
                            Notice.Key.CONDENSED, place, Map.of("species", e.getKey(), "massFraction", e.getValue())));
                }
            }
            for (Map.Entry<String, Double> e : new TreeMap<>(split.belowTriple()).entrySet()) {
                notices.add(new Notice(
                        Notice.Key.FREEZES,
                        place,
                        Map.of(
                                "species",
                                e.getKey(),
                                "temperature",
                                s.temperature(),
                                "tripleTemperature",
                                e.getValue())));
            }
        }
        discNotice(i, s, place, notices);
    }

    /** A dense or cold mixture: the attraction of unlike molecules is left out, and by an estimate it counts. */
    private void unlikeNotice(FluidState s, String place, List<Notice> notices) {
        double error;
        try {
            error = net.mixer.unlikeError(s);
        } catch (PropertyException e) {
            return; // the state stands; only the estimate is missing
        }
        if (Math.abs(error) <= UNLIKE) {
            return;
        }
        String quantity = Double.isNaN(error)
                ? "mixed liquids: density and boiling point not known"
                : "density of a dense mixture, off by about "
                        + (Math.abs(error) > 0.1 ? "10 % or more" : Math.abs(error) > 0.05 ? "5 to 10 %" : "2 to 5 %");
        notices.add(new Notice(
                Notice.Key.OUT_OF_RANGE,
                place,
                Map.of(
                        "model",
                        "mixture at partial densities",
                        "quantity",
                        quantity,
                        "value",
                        error,
                        "minimum",
                        -UNLIKE,
                        "maximum",
                        UNLIKE)));
    }

    private StreamMixer.PhaseSplit split(FluidState s) {
        try {
            return net.mixer.split(s);
        } catch (PropertyException e) {
            // The split is a notice's business only; the state itself stands.
            return null;
        }
    }

    private void discNotice(int i, FluidState s, String place, List<Notice> notices) {
        Cavity.Disc disc = net.cavity[i].disc();
        double speed = net.model.rotor().speed();
        if (disc == null || speed == 0 || net.unknown[i] < 0) {
            return;
        }
        if (net.swirlFromFlow[i]) {
            notices.add(new Notice(
                    Notice.Key.ESTIMATE,
                    place,
                    Map.of(
                            "model",
                            CORE_SWIRL,
                            "constant",
                            "swirl ratio",
                            "value",
                            x.swirl[i] / speed,
                            "origin",
                            "S. Poncet and others 2005")));
            range(
                    notices,
                    place,
                    CORE_SWIRL,
                    "flow-rate coefficient Cqr",
                    x.swirlCoefficient(i),
                    CoreSwirl.MINIMUM_COEFFICIENT,
                    CoreSwirl.MAXIMUM_COEFFICIENT);
        }
        double reynolds = DiscFriction.reynolds(disc.outerRadius(), speed, s.density(), x.fluid[i].viscosity(s));
        range(
                notices,
                place,
                "disc windage",
                "rotational Reynolds number",
                reynolds,
                DiscFriction.MINIMUM_REYNOLDS,
                DiscFriction.MAXIMUM_REYNOLDS);
        if (!Double.isNaN(disc.gap())) {
            range(
                    notices,
                    place,
                    "disc windage",
                    "gap over radius",
                    disc.gap() / disc.outerRadius(),
                    DiscFriction.MINIMUM_GAP_RATIO,
                    DiscFriction.MAXIMUM_GAP_RATIO);
        }
    }

    private static void range(
            List<Notice> notices, String place, String model, String quantity, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            notices.add(new Notice(
                    Notice.Key.OUT_OF_RANGE,
                    place,
                    Map.of(
                            "model", model,
                            "quantity", quantity,
                            "value", value,
                            "minimum", low,
                            "maximum", high)));
        }
    }

    /** Says for each passage which beta the traces rest on, and that its value is nobody's measurement. */
    private void stirringNotice(List<Notice> notices) {
        for (int l = 0; l < net.links; l++) {
            if (net.flowing[l]
                    && x.conductance[l] != null
                    && x.opening(l) > 0
                    && net.stirring[l] > 0
                    && net.passage[l].surfaceSpeed() > 0) {
                notices.add(new Notice(
                        Notice.Key.ESTIMATE,
                        "/passages/" + net.model.passages().get(net.specOf[l]).name(),
                        Map.of(
                                "model", "counter-diffusion with stirring, D + beta U c",
                                "constant", "beta",
                                "value", net.stirring[l],
                                "origin", "invented until fitted to data")));
            }
        }
    }
}

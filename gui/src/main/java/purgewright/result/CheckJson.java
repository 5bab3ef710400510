package purgewright.result;

import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Collection;
import java.util.List;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.hazard.deficiency.RoomHistory;
import purgewright.hazard.finding.Evidence;
import purgewright.hazard.finding.Finding;
import purgewright.hazard.service.CaseService;
import purgewright.hazard.service.CavityExplanation;
import purgewright.hazard.service.CheckResult;
import purgewright.hazard.service.CheckStudies;
import purgewright.hazard.service.TernaryPaths;
import purgewright.sealflow.Notice;
import purgewright.sealflow.network.AxialForces;
import purgewright.sealflow.network.Explanation;
import purgewright.sealflow.network.SolveResult;
import purgewright.sealflow.network.SolveResult.CavityState;
import purgewright.sealflow.network.SolveResult.Converged;
import purgewright.sealflow.network.SolveResult.NotConverged;
import purgewright.sealflow.network.SolveResult.PassageState;
import purgewright.sealflow.network.SolverSettings;

/** {@code check --json}: every number in SI with its unit in the key; what is not known is null; enthalpy on the formation datum. */
public final class CheckJson {
    private CheckJson() {}

    /**
     * @param version of this program
     */
    public static String write(CheckResult result, String version) {
        return write(result, null, CheckStudies.NONE, version);
    }

    /**
     * With the keys {@code why}, {@code redlines}, {@code interlocks} and {@code wear} where they were asked for.
     *
     * @param why null leaves the key out
     * @param studies what of it is empty leaves its key out
     * @param version of this program
     */
    public static String write(CheckResult result, CavityExplanation why, CheckStudies studies, String version) {
        return JsonText.object(json -> {
            json.field("result", JsonText.LAYOUT);
            json.object("case", about -> {
                about.field("title", result.model().about().getOrDefault("title", ""));
                about.field("hash", result.document().hash());
            });
            json.field("version", version);
            json.field("engine", result.engine());
            json.field("verdict", result.verdict().word());
            json.field("verdict_line", result.verdictLine());
            json.objects("phases", result.phases(), CheckJson::phase);
            CheckResult.PurgeSummary purge = result.purge();
            json.object("purge", p -> {
                if (purge != null) {
                    p.field("flow_kg_s", purge.flow())
                            .field("gas", purge.gas())
                            .field("governing_phase", purge.governingPhase())
                            .field("flow_by_phase_kg_s", purge.flowByPhase())
                            .field("windage_W", purge.windage())
                            .field("seal_power_W", purge.sealPower());
                }
            });
            PriceJson.write(json, result.price());
            findings(json, "findings", result.findings());
            json.objects("ternary", TernaryPaths.of(result), CheckJson::ternary);
            RoomHistory room = CaseService.room(result);
            if (room != null) {
                json.object("room", r -> room(r, room));
            }
            json.strings("cautions", result.cautions());
            if (why != null) {
                json.object("why", w -> why(w, why));
            }
            if (!studies.redlines().isEmpty()) {
                StudyJson.redlines(json, studies.redlines());
                StudyJson.interlocks(json, studies.interlocks());
            }
            if (!studies.wear().isEmpty()) {
                StudyJson.wear(json, studies.wear());
            }
        });
    }

    private static void ternary(JsonText json, TernaryPaths path) throws IOException {
        json.field("cavity", path.cavity());
        json.objects("phases", path.stations(), (o, station) -> o.field("phase", station.phase())
                .field("fuel", station.at().fuel())
                .field("oxygen", station.at().oxygen())
                .field("inert", station.at().inert())
                .field("inside", station.at().inside())
                .field("distance", station.at().distance())
                .field("nearest_on_the_way", station.nearest())
                .field("crosses_on_the_way", station.crosses()));
    }

    private static void room(JsonText json, RoomHistory room) throws IOException {
        json.field("alarm", room.alarm())
                .field("alarm_after_s", room.alarmAt())
                .field("below_18_percent_after_s", room.dangerousAt());
        json.objects("oxygen", room.samples(), (o, sample) -> o.field("time_s", sample.time())
                .field("phase", sample.phase())
                .field("oxygen", sample.oxygen()));
    }

    /** The value of an input is SI; its place says of what. */
    private static void why(JsonText json, CavityExplanation why) throws IOException {
        json.field("cavity", why.cavity()).field("phase", why.phase());
        Explanation e = why.explanation();
        json.field("explained", e != null);
        if (e == null) {
            json.field("reason", why.reason());
            return;
        }
        json.field("fixed", e.state().fixed())
                .field("pressure_Pa", e.state().state().pressure())
                .field("inflow_kg_s", e.inflow());
        json.objects("balance", e.items(), (j, item) -> j.field("passage", item.passage())
                .field("other", item.other())
                .field("inward_flow_kg_s", item.flow())
                .field("share", item.share())
                .field("own_pressure_Pa", item.ownPressure())
                .field("other_pressure_Pa", item.otherPressure())
                .field("choked", item.choked())
                .field("liquid_pick_up", item.pickUp())
                .field("stream_flows_kg_s", item.streamFlows()));
        json.objects("pressure_by", e.pressure(), (j, s) -> j.field("place", s.place())
                .field("value_SI", s.value())
                .field("derivative_Pa_per_SI", s.derivative())
                .field("change_per_10_percent_Pa", 0.1 * s.perShare()));
        json.object("mass_fraction_by", streams -> {
            for (var entry : e.fractions().entrySet()) {
                streams.objects(entry.getKey(), entry.getValue(), (j, s) -> j.field("place", s.place())
                        .field("value_SI", s.value())
                        .field("derivative_per_SI", s.derivative())
                        .field("change_per_10_percent", 0.1 * s.perShare()));
            }
        });
    }

    /** An estimate is not worth more. */
    private static double twoDigits(double value) {
        return Double.isFinite(value) && value != 0
                ? new BigDecimal(value).round(new MathContext(2)).doubleValue()
                : value;
    }

    private static void phase(JsonText json, CheckResult.PhaseResult phase) throws IOException {
        SolveResult solve = phase.solve();
        json.field("name", phase.name());
        json.field("converged", solve instanceof Converged);
        json.field("iterations", solve.convergence().iterations());
        json.field("mass_closure", solve.convergence().massClosure());
        json.field("energy_closure", solve.convergence().energyClosure());
        json.field("species_closure", solve.convergence().speciesClosure());
        json.field("answered_by", word(solve.convergence().answeredBy().name()));
        json.field("condition_estimate", twoDigits(solve.convergence().conditionEstimate()));
        Collection<CavityState> cavities = List.of();
        Collection<PassageState> passages = List.of();
        List<Notice> notices = List.of();
        if (solve instanceof Converged converged) {
            cavities = converged.cavities().values();
            passages = converged.passages().values();
            notices = converged.notices();
        } else if (solve instanceof NotConverged failed) {
            json.field("worst_cavity", failed.worstCavity());
            json.field("reason", word(failed.reason().name()));
            json.field("detail", failed.detail());
            // No state of the machine: it stands apart from the cavities, so that nobody reads it as one.
            json.object("unconverged_iterate", all -> {
                for (CavityState cavity : failed.best().values()) {
                    all.object(cavity.name(), c -> c.field("fixed", cavity.fixed())
                            .field("pressure_Pa", cavity.state().pressure())
                            .field("temperature_K", cavity.state().temperature())
                            .field("net_flow_kg_s", cavity.netMassFlow()));
                }
            });
        }
        Collection<CavityState> cavityStates = cavities;
        json.object("cavities", all -> {
            for (CavityState cavity : cavityStates) {
                all.object(cavity.name(), c -> cavity(c, cavity));
            }
        });
        if (solve instanceof Converged converged) {
            var faces = AxialForces.of(phase.model(), converged, SolverSettings.DEFAULT.swirlRatio());
            if (!faces.isEmpty()) {
                json.object("axial_forces", all -> {
                    for (var face : faces.entrySet()) {
                        all.object(face.getKey(), f -> f.field(
                                        "force_N", face.getValue().force())
                                .field("area_m2", face.getValue().area())
                                .field("mean_pressure_Pa", face.getValue().meanPressure()));
                    }
                });
                double thrust = AxialForces.thrust(faces);
                if (!Double.isNaN(thrust)) {
                    json.field("axial_thrust_aft_N", thrust);
                }
            }
        }
        Collection<PassageState> passageStates = passages;
        json.object("passages", all -> {
            for (PassageState passage : passageStates) {
                all.object(passage.name(), p -> passage(p, passage));
            }
        });
        json.objects("notices", notices, (n, notice) -> {
            n.field("key", notice.key().name()).field("place", notice.place());
            n.object("values", values -> {
                for (var entry : notice.values().entrySet()) {
                    if (entry.getValue() instanceof Number number) {
                        values.field(entry.getKey(), number.doubleValue());
                    } else {
                        values.field(entry.getKey(), String.valueOf(entry.getValue()));
                    }
                }
            });
        });
        // The whole list of the result is the phases' lists again: the evidence stands here alone.
        json.objects("findings", phase.findings(), (f, finding) -> {
            finding(f, finding);
            evidence(f, finding.evidence());
        });
    }

    private static void cavity(JsonText json, CavityState cavity) throws IOException {
        var state = cavity.state();
        json.field("fixed", cavity.fixed())
                .field("pressure_Pa", state.pressure())
                .field("temperature_K", state.temperature())
                .field("density_kg_m3", state.density())
                .field("enthalpy_J_kg", state.enthalpy())
                .field("quality", state.quality())
                .field("phase", phase(state.phase()))
                .field("extrapolated", state.extrapolated())
                .field("mass_fractions", cavity.massFractions())
                .field("mole_fractions", cavity.moleFractions())
                .field("stream_fractions", cavity.streamFractions())
                .field("windage_W", cavity.windage())
                .field("net_flow_kg_s", cavity.netMassFlow());
    }

    private static void passage(JsonText json, PassageState passage) throws IOException {
        json.field("from", passage.from())
                .field("to", passage.to())
                .field("flow_kg_s", passage.flow().massFlow())
                .field("choked", passage.flow().choked())
                .field("upstream", passage.upstream())
                .field("gap_velocity_m_s", passage.flow().gapVelocity())
                .field("surface_speed_m_s", passage.surfaceSpeed())
                .field(
                        "clearance_m",
                        passage.gap() == null ? Double.NaN : passage.gap().mean())
                .field(
                        "least_clearance_m",
                        passage.gap() == null ? Double.NaN : passage.gap().least())
                .field("reynolds", passage.flow().reynolds())
                .field("throat_pressure_Pa", passage.flow().throatPressure())
                .field("from_pressure_Pa", passage.fromState().pressure())
                .field("to_pressure_Pa", passage.toState().pressure())
                .field("heat_W", passage.flow().heat())
                .field("stream_flows_kg_s", passage.streamFlows());
    }

    static void findings(JsonText json, String name, List<Finding> findings) throws IOException {
        json.objects(name, findings, CheckJson::finding);
    }

    private static void finding(JsonText f, Finding finding) throws IOException {
        f.field("id", finding.id())
                .field("verdict", finding.verdict().word())
                .field("what", finding.what())
                .field("where", finding.where())
                .field("phase", finding.phase())
                .field("scenario", finding.scenario())
                .field("value", finding.value())
                .field("limit", finding.limit())
                .field("margin", finding.margin())
                .field("unit", Dimension.si(finding.unit()))
                .field("how", finding.how())
                .field("source", finding.source())
                .field("mend", finding.mend())
                .field("caution", finding.caution());
        if (finding.waiver() != null) {
            f.object("waiver", w -> w.field("by", finding.waiver().by())
                    .field("date", finding.waiver().date())
                    .field("reason", finding.waiver().reason()));
        }
    }

    private static void evidence(JsonText f, Evidence e) throws IOException {
        if (e.equals(Evidence.NONE)) {
            return;
        }
        f.object("evidence", json -> {
            json.objects("states", e.states(), (o, state) -> o.field("place", state.place())
                    .field("quantity", state.quantity())
                    .field("value", state.value())
                    .field("unit", state.unit()));
            json.strings("models", e.models());
            json.field("properties", e.properties()).field("closure", e.closure());
            ends(json, "adverse", e.adverse());
            ends(json, "favourable", e.favourable());
            json.objects("flips", e.flips(), (o, flip) -> o.field("place", flip.place())
                    .field("value_SI", flip.value())
                    .field("relative_change", flip.share()));
        });
    }

    private static void ends(JsonText json, String name, Evidence.Ends ends) throws IOException {
        if (ends != null) {
            json.object(name, o -> o.field("value", ends.value())
                    .field("margin", ends.margin())
                    .field("verdict", ends.verdict().word()));
        }
    }

    /** The phase's word in every output. */
    static String phase(Phase phase) {
        return switch (phase) {
            case LIQUID -> "liquid";
            case GAS -> "gas";
            case SUPERCRITICAL -> "supercritical";
            case TWO_PHASE -> "two-phase";
        };
    }

    private static String word(String constant) {
        return constant.toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
    }
}

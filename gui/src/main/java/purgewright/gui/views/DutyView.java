package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.BiFunction;
import purgewright.figure.DutyChart;
import purgewright.figure.Figure;
import purgewright.figure.Readout;
import purgewright.gui.bench.Workbench;
import purgewright.gui.text.Texts;
import purgewright.hazard.service.Progress;
import purgewright.hazard.service.RunResult;
import purgewright.sealflow.campaign.Channel;
import purgewright.sealflow.casefile.CaseDocument;
import purgewright.sealflow.model.Role;

/** The duty through time: bottles, purge flow, barriers, margins. */
public final class DutyView extends StudyView<RunResult> {
    private final BiFunction<CaseDocument, Progress, RunResult> run;
    private final FigureCanvas canvas;

    /**
     * @param run runs the duty of a case
     */
    public DutyView(Workbench bench, BiFunction<CaseDocument, Progress, RunResult> run) {
        super(bench, "duty");
        this.run = run;
        canvas = new FigureCanvas(bench, this::draw, bench.selectedProperty()::set);
        body(canvas);
    }

    @Override
    RunResult compute(CaseDocument document, Progress progress) {
        return run.apply(document, progress);
    }

    @Override
    void show(RunResult result) {
        Readout r = bench.readoutProperty().get();
        List<String> said = new ArrayList<>();
        said.add(result.verdictLine());
        said.add(Texts.of(
                "view.duty.gas",
                r.quantity(result.gas().used(), "kg"),
                result.gas().fluid()));
        if (!Double.isNaN(result.gas().usableAtEnd())) {
            said.add(Texts.of("view.duty.left", r.quantity(result.gas().usableAtEnd(), "kg")));
        }
        if (result.least() != null) {
            said.add(Texts.of(
                    "view.duty.least",
                    Readout.margin(result.least().margin()),
                    result.least().criterion().replace('-', ' '),
                    r.time(result.least().time()),
                    result.least().cause()));
        }
        if (!result.note().isEmpty()) {
            said.add(result.note());
        }
        line(String.join("  ·  ", said));
        canvas.redraw();
    }

    private Figure draw(double width, double height) {
        if (result() == null) {
            return null;
        }
        List<String> barriers = bench.shownCase() == null
                ? List.of()
                : bench.shownCase().cavities().stream()
                        .filter(c -> c.role() == Role.BARRIER)
                        .map(c -> c.name())
                        .toList();
        return DutyChart.draw(
                result(),
                barriers,
                bench.readoutProperty().get(),
                bench.themeProperty().get(),
                width,
                height);
    }

    @Override
    public void shown(boolean now) {
        canvas.shown(now);
    }

    @Override
    public String name() {
        return "duty";
    }

    @Override
    public Figure figure() {
        return canvas.figure();
    }

    @Override
    public String csv() {
        if (result() == null) {
            return "";
        }
        TreeSet<Double> times = new TreeSet<>();
        List<Object> heads = new ArrayList<>(List.of("time_s"));
        for (Channel c : result().channels()) {
            heads.add(c.name() + " [" + c.unit() + "]");
            for (int i = 0; i < c.size(); i++) {
                times.add(c.time(i));
            }
        }
        Csv csv = new Csv("duty", ran()).line(heads.toArray());
        for (double t : times) {
            List<Object> cells = new ArrayList<>(List.of((Object) t));
            result().channels().forEach(c -> cells.add(c.at(t)));
            csv.line(cells.toArray());
        }
        return csv.toString();
    }
}

package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.ComboBox;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import purgewright.figure.Figure;
import purgewright.figure.FluidChart;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Desk;
import purgewright.gui.text.Texts;
import purgewright.sealflow.model.Case;

/** Pressure against enthalpy, or temperature against entropy, of one of the case's fluids. */
public final class FluidChartView {
    private final Workbench bench;
    private final Desk desk;
    private final ComboBox<String> fluid = new ComboBox<>();
    private final ComboBox<String> kind = new ComboBox<>();
    private final FigureView view;

    /** A view of the bench's case. */
    public FluidChartView(Workbench bench, Desk desk) {
        this.bench = bench;
        this.desk = desk;
        fluid.setId("chart fluid");
        fluid.setAccessibleText(Texts.of("view.fluid.choose"));
        kind.setId("chart kind");
        kind.setAccessibleText(Texts.of("view.fluid.kind"));
        kind.getItems().setAll(Texts.of("view.fluid.ph"), Texts.of("view.fluid.ts"));
        kind.setValue(Texts.of("view.fluid.ph"));
        HBox controls = new HBox(8, kind, fluid);
        controls.setMinWidth(Region.USE_PREF_SIZE);
        this.view =
                new FigureView(bench, "fluid-chart", controls, this::draw, this::csv, bench.selectedProperty()::set);
        fluid.valueProperty().addListener((o, a, b) -> view.redraw());
        kind.valueProperty().addListener((o, a, b) -> view.redraw());
    }

    private void choices(Case model) {
        List<String> fluids = new ArrayList<>();
        for (StreamDefinition stream : model.streams()) {
            if (stream instanceof StreamDefinition.Single single && !fluids.contains(single.fluid())) {
                fluids.add(single.fluid());
            }
        }
        if (!fluids.equals(fluid.getItems())) {
            fluid.getItems().setAll(fluids);
        }
        if (fluid.getValue() == null || !fluids.contains(fluid.getValue())) {
            fluid.setValue(fluids.isEmpty() ? null : fluids.get(0));
        }
    }

    private Figure draw(double width, double height) {
        Case model = bench.shownCase();
        if (model == null) {
            return null;
        }
        choices(model);
        if (fluid.getValue() == null) {
            return null;
        }
        try {
            PureFluid pure = desk.engine().pure(fluid.getValue());
            boolean entropy = Texts.of("view.fluid.ts").equals(kind.getValue());
            return FluidChart.draw(
                    pure,
                    pure.name(),
                    entropy,
                    bench.shownSolution(),
                    bench.readoutProperty().get(),
                    bench.themeProperty().get(),
                    width,
                    height);
        } catch (PropertyException e) {
            return null; // a stream whose fluid is no pure one, for instance air
        }
    }

    private String csv() {
        if (bench.shownSolution() == null) {
            return "";
        }
        Csv csv = new Csv("states", bench.history().document())
                .line(
                        "cavity",
                        "pressure_Pa",
                        "temperature_K",
                        "density_kg_m3",
                        "enthalpy_J_kg",
                        "entropy_J_kgK",
                        "quality");
        bench.shownSolution()
                .cavities()
                .forEach((name, c) -> csv.line(
                        name,
                        c.state().pressure(),
                        c.state().temperature(),
                        c.state().density(),
                        c.state().enthalpy(),
                        c.state().entropy(),
                        c.state().quality()));
        return csv.toString();
    }

    /** The node. */
    public FigureView node() {
        return view;
    }
}

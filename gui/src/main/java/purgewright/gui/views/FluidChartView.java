package purgewright.gui.views;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.ComboBox;
import purgewright.figure.Figure;
import purgewright.figure.FluidChart;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.gui.bench.Workbench;
import purgewright.gui.task.Desk;
import purgewright.gui.text.Texts;
import purgewright.sealflow.model.Case;

/** Pressure against enthalpy of one of the case's fluids. */
public final class FluidChartView {
    private final Workbench bench;
    private final Desk desk;
    private final ComboBox<String> fluid = new ComboBox<>();
    private final FigureView view;

    /** A view of the bench's case. */
    public FluidChartView(Workbench bench, Desk desk) {
        this.bench = bench;
        this.desk = desk;
        fluid.setId("chart fluid");
        fluid.setAccessibleText(Texts.of("view.fluid.choose"));
        this.view = new FigureView(bench, fluid, this::draw, bench.selectedProperty()::set);
        fluid.valueProperty().addListener((o, a, b) -> view.redraw());
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
            return FluidChart.draw(
                    pure,
                    pure.name(),
                    bench.shownSolution(),
                    bench.readoutProperty().get(),
                    bench.themeProperty().get(),
                    width,
                    height);
        } catch (PropertyException e) {
            return null; // a stream whose fluid is no pure one, for instance air
        }
    }

    /** The node. */
    public FigureView node() {
        return view;
    }
}

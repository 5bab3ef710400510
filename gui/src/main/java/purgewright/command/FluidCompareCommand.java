package purgewright.command;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.fluids.unit.Dimension;
import purgewright.report.FluidText;
import purgewright.result.FluidJson;
import purgewright.result.FluidJson.Comparison;
import purgewright.result.FluidJson.Row;

/** Both property engines side by side. */
@Command(
        name = "compare",
        mixinStandardHelpOptions = true,
        description = {
            "The embedded equations and the external property library side by side.",
            "Without a temperature and a pressure: a grid over the fluid's range."
        })
final class FluidCompareCommand implements Callable<Integer> {
    private static final int GRID = 5;

    @ParentCommand
    private FluidCommand parent;

    @Mixin
    private SharedOptions shared;

    @Parameters(paramLabel = "NAME", description = "Name or alias of the fluid.")
    private String name;

    @Option(names = "--temperature", paramLabel = "T", description = "Temperature; needs --pressure.")
    private String temperature;

    @Option(names = "--pressure", paramLabel = "P", description = "Pressure; needs --temperature.")
    private String pressure;

    @Override
    public Integer call() {
        Terminal terminal = parent.terminal();
        PropertyEngine ours = EngineChoice.of(SharedOptions.EngineName.embedded);
        PureFluid mine = ours.pure(name);
        List<double[]> states = new ArrayList<>();
        if (temperature != null && pressure != null) {
            states.add(new double[] {
                TypedQuantity.read("--temperature", temperature, Dimension.TEMPERATURE, terminal, shared.quiet),
                TypedQuantity.read("--pressure", pressure, Dimension.PRESSURE, terminal, shared.quiet)
            });
        } else if (temperature != null || pressure != null) {
            throw new InputProblem("PAIR_NOT_SUPPORTED", "give --temperature and --pressure, or neither", "");
        }
        PropertyEngine theirs = EngineChoice.of(SharedOptions.EngineName.coolprop);
        PureFluid other = theirs.pure(mine.name());
        if (states.isEmpty()) {
            double low = 1.02 * mine.tripleTemperature();
            double high = 0.98 * mine.maximumTemperature();
            for (int i = 0; i < GRID; i++) {
                for (double p : new double[] {1e5, 1e6, 1e7}) {
                    states.add(new double[] {low * Math.pow(high / low, (double) i / (GRID - 1)), p});
                }
            }
        }
        List<Comparison> lines = new ArrayList<>();
        for (double[] at : states) {
            compare(lines, mine, other, at[0], at[1]);
        }
        if (lines.isEmpty()) {
            throw new InputProblem("OUT_OF_RANGE", "no state that both engines can give", "");
        }
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.comparison(mine.name(), lines, ours.name(), theirs.name()) + "\n"
                                : FluidText.comparison(mine.name(), lines, ours.name(), theirs.name()));
        return ExitCode.OK;
    }

    private void compare(List<Comparison> lines, PureFluid mine, PureFluid other, double t, double p) {
        Row a;
        Row b;
        try {
            a = FluidCommand.row(mine, mine.atPressureTemperature(p, t));
            b = FluidCommand.row(other, other.atPressureTemperature(p, t));
        } catch (PropertyException e) { // solid, or outside one engine's range: nothing to compare
            if (temperature != null) {
                throw e;
            }
            return;
        }
        FluidState x = a.state();
        FluidState y = b.state();
        lines.add(new Comparison(t, p, "density_kg_m3", x.density(), y.density()));
        // Reference states differ between engines; cp, cv and sound speed carry what enthalpy and entropy would show.
        lines.add(new Comparison(t, p, "cp_J_kgK", x.cp(), y.cp()));
        lines.add(new Comparison(t, p, "cv_J_kgK", x.cv(), y.cv()));
        lines.add(new Comparison(t, p, "sound_speed_m_s", x.soundSpeed(), y.soundSpeed()));
        lines.add(new Comparison(t, p, "viscosity_Pa_s", a.viscosity(), b.viscosity()));
        lines.add(new Comparison(t, p, "conductivity_W_mK", a.conductivity(), b.conductivity()));
    }
}

package purgewright.command;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.burnt.Burner;
import purgewright.fluids.burnt.BurntGas;
import purgewright.fluids.mixture.StreamDefinition;
import purgewright.fluids.unit.Dimension;
import purgewright.report.FluidText;
import purgewright.result.FluidJson;

/** Combustion products. */
@Command(
        name = "burn",
        mixinStandardHelpOptions = true,
        description = "Equilibrium products of a burner: temperature, molar mass and composition.",
        footer = {
            "",
            "Example:",
            "  purgewright fluid burn --fuel methane --oxidizer oxygen --mixture-ratio 0.4 --pressure \"6 MPa\""
        })
final class FluidBurnCommand implements Callable<Integer> {
    @ParentCommand
    private FluidCommand parent;

    @Mixin
    private SharedOptions shared;

    @Option(
            names = "--fuel",
            required = true,
            paramLabel = "NAME",
            description = "methane, hydrogen, kerosene, ethanol")
    private String fuel;

    @Option(names = "--oxidizer", required = true, paramLabel = "NAME", description = "oxygen, air")
    private String oxidizer;

    @Option(names = "--mixture-ratio", required = true, paramLabel = "R", description = "Oxidizer to fuel by mass.")
    private String mixtureRatio;

    @Option(names = "--pressure", required = true, paramLabel = "P", description = "Burner pressure.")
    private String pressure;

    @Option(
            names = "--fuel-temperature",
            paramLabel = "T",
            defaultValue = "298.15 K",
            description = "At the burner's inlet. Default: ${DEFAULT-VALUE}.")
    private String fuelTemperature;

    @Option(
            names = "--oxidizer-temperature",
            paramLabel = "T",
            defaultValue = "298.15 K",
            description = "At the burner's inlet. Default: ${DEFAULT-VALUE}.")
    private String oxidizerTemperature;

    @Option(names = "--graphite", description = "Allow condensed carbon.")
    private boolean graphite;

    @Override
    public Integer call() {
        Terminal terminal = parent.terminal();
        double ratio = TypedQuantity.read("--mixture-ratio", mixtureRatio, Dimension.NUMBER, terminal, shared.quiet);
        if (!(ratio > 0)) {
            throw new InputProblem("OUT_OF_RANGE", "--mixture-ratio is " + ratio + ", it must be above zero", "");
        }
        StreamDefinition.Burn burn = new StreamDefinition.Burn(
                "products",
                fuel,
                oxidizer,
                ratio,
                TypedQuantity.read("--pressure", pressure, Dimension.PRESSURE, terminal, shared.quiet),
                TypedQuantity.read(
                        "--fuel-temperature", fuelTemperature, Dimension.TEMPERATURE, terminal, shared.quiet),
                TypedQuantity.read(
                        "--oxidizer-temperature", oxidizerTemperature, Dimension.TEMPERATURE, terminal, shared.quiet),
                graphite);
        PropertyEngine engine = EngineChoice.of(shared.properties);
        BurntGas gas = Burner.burn(engine, burn);
        terminal.out()
                .print(
                        shared.json
                                ? FluidJson.burn(gas, engine.name()) + "\n"
                                : FluidText.burn(
                                        "Products of " + fuel + " with " + oxidizer + ", mixture ratio " + mixtureRatio
                                                + ", " + pressure,
                                        gas,
                                        engine.name(),
                                        shared.unitSystem()));
        return ExitCode.OK;
    }
}

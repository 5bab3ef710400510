package purgewright.fluids.burnt;

/** What goes into a burner. SI. */
public interface BurnConditions {
    /** Fuel by library name: methane, hydrogen, kerosene, ethanol ... */
    String fuel();

    /** Oxidizer by library name: oxygen, air. */
    String oxidizer();

    /** Oxidizer to fuel by mass. */
    double mixtureRatio();

    /** Pressure, Pa. */
    double pressure();

    /** Temperature of the fuel at the inlet, K. */
    double fuelTemperature();

    /** Temperature of the oxidizer at the inlet, K. */
    double oxidizerTemperature();

    /** True to allow condensed carbon. */
    boolean graphite();
}

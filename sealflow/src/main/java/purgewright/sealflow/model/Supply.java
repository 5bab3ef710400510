package purgewright.sealflow.model;

/**
 * Where the purge gas comes from. SI; NaN where the case says nothing.
 *
 * @param gas name of the case's stream
 * @param cavity the fixed supply cavity that the regulator feeds; null when not stated
 * @param bottles the bank; null for a plant supply
 * @param regulator null when the bottles feed the cavity directly
 * @param line from regulator to cavity; null for none
 * @param metering name of the passage that meters the purge; null when not stated
 * @param receiver name of the cavity that holds gas behind the check valve; null when not stated
 * @param plant a main of steady pressure, with bottles as an alternative to them, alone instead of them; null for none
 * @param liquid a tank of the gas as a cryogenic liquid with a vaporiser, likewise; null for none
 */
public record Supply(
        String gas,
        String cavity,
        Bottles bottles,
        Regulator regulator,
        Line line,
        String metering,
        String receiver,
        Plant plant,
        Liquid liquid) {

    /**
     * A bank of equal bottles.
     *
     * @param volume of one bottle, m3
     * @param fillingPressure settled, absolute, Pa
     * @param temperature settled, K
     * @param number of bottles in all
     * @param banks that are switched one after the other; at least 1
     * @param wallConductance from gas to the wall of one bottle, W/K; NaN when not stated: no heat
     * @param wallHeatCapacity of the wall of one bottle, J/K; NaN when not stated: a wall that keeps its temperature
     * @param outsideConductance from the air to the wall of one bottle, W/K; NaN when not stated: no heat
     * @param unusablePressure below this a bottle counts as empty, Pa; NaN: from the regulator's margin
     */
    public record Bottles(
            double volume,
            double fillingPressure,
            double temperature,
            int number,
            int banks,
            double wallConductance,
            double wallHeatCapacity,
            double outsideConductance,
            double unusablePressure) {}

    /**
     * A pressure regulator.
     *
     * @param setPressure outlet at no flow, absolute, Pa
     * @param droop fall of the outlet with flow, Pa s/kg; 0 when not stated
     * @param inletEffect rise of the outlet per fall of the inlet, 1; 0 when not stated
     * @param minimumInletMargin inlet over outlet below which it no longer regulates, Pa; 0 when not stated
     * @param accuracy half the band of the set pressure, Pa; 0 when not stated
     * @param reliefPressure of the relief valve behind it, absolute, Pa; NaN for none
     * @param reliefDiameter of the relief valve's seat, m; NaN when not stated
     * @param openDiameter of the regulator's seat when it fails open, m; NaN when not stated
     */
    public record Regulator(
            double setPressure,
            double droop,
            double inletEffect,
            double minimumInletMargin,
            double accuracy,
            double reliefPressure,
            double reliefDiameter,
            double openDiameter) {}

    /**
     * The line from regulator to cavity.
     *
     * @param diameter m
     * @param length m
     * @param roughness m; NaN when not stated
     * @param lossCoefficient sum of bends and fittings; 0 when not stated
     */
    public record Line(double diameter, double length, double roughness, double lossCoefficient) {}

    /**
     * A gas main.
     *
     * @param pressure absolute, Pa
     * @param temperature K
     * @param greatestFlow that it can give, kg/s; NaN when not stated
     */
    public record Plant(double pressure, double temperature, double greatestFlow) {}

    /**
     * A tank of the gas as a boiling liquid, and what makes gas of it.
     *
     * @param volume of liquid when full, m3
     * @param pressure of the tank, absolute, Pa: the gas behind the vaporiser has it too
     * @param temperature of the gas behind the vaporiser, K
     * @param vaporiserFlow that the vaporiser can warm, kg/s; NaN when not stated
     * @param dailyLoss share of a full tank that boils away in a day; 0 when not stated
     */
    public record Liquid(double volume, double pressure, double temperature, double vaporiserFlow, double dailyLoss) {}
}

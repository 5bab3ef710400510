package purgewright.fluids.transport;

import java.util.function.DoubleUnaryOperator;

/**
 * What a correlation needs to know of the phases.
 *
 * @param criticalTemperature of the equation, K
 * @param criticalDensity of the equation, kg/m3
 * @param vapourDensity density of the saturated vapour (kg/m3) over temperature (K)
 */
public record Anchors(double criticalTemperature, double criticalDensity, DoubleUnaryOperator vapourDensity) {}

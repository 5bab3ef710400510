package purgewright.hazard.service;

/**
 * How data are fitted.
 *
 * @param passage name of the passage whose flow was measured; empty: the whole network
 * @param what clearance, flow factor, or both (one passage only)
 * @param testGas library name of the fluid of a flow check; empty: the purge gas of the case
 * @param flowUncertainty relative standard uncertainty of a flow reading where the data state none; NaN: the case's criterion
 * @param pressureUncertainty standard uncertainty of a pressure reading, Pa, network only; NaN: the case's criterion
 * @param priorSpread standard deviation of the logarithm of a clearance over its drawing value, network only
 */
public record FitSettings(
        String passage,
        What what,
        String testGas,
        double flowUncertainty,
        double pressureUncertainty,
        double priorSpread) {
    /** What is fitted of one passage. */
    public enum What {
        CLEARANCE,
        FACTOR,
        BOTH
    }

    /** 0.3: two of three worn seals lie within a third of the drawing clearance [invented]; the data overrule it. */
    public static final FitSettings DEFAULT = new FitSettings("", What.CLEARANCE, "", Double.NaN, Double.NaN, 0.3);

    /** Checks. */
    public FitSettings {
        if (!(priorSpread > 0)) {
            throw new IllegalArgumentException("prior spread " + priorSpread + " must be above 0");
        }
    }

    /** The same for one passage. */
    public FitSettings withPassage(String name, What which) {
        return new FitSettings(name, which, testGas, flowUncertainty, pressureUncertainty, priorSpread);
    }

    /** The same with another test fluid. */
    public FitSettings withTestGas(String fluid) {
        return new FitSettings(passage, what, fluid, flowUncertainty, pressureUncertainty, priorSpread);
    }

    /** The same with another uncertainty of flow. */
    public FitSettings withFlowUncertainty(double share) {
        return new FitSettings(passage, what, testGas, share, pressureUncertainty, priorSpread);
    }

    /** The same with another uncertainty of pressure readings, Pa. */
    public FitSettings withPressureUncertainty(double pascal) {
        return new FitSettings(passage, what, testGas, flowUncertainty, pascal, priorSpread);
    }
}

package purgewright.sealflow;

import static purgewright.sealflow.passage.SvgChart.grid;
import static purgewright.sealflow.passage.SvgChart.of;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.network.Diffusion;
import purgewright.sealflow.passage.SvgChart;
import purgewright.sealflow.rotating.CoreSwirl;
import purgewright.sealflow.rotating.DiscFriction;
import purgewright.sealflow.supply.Bottles;
import purgewright.sealflow.supply.Emptying;

/** The figures of the theory pages on cavities, diffusion and bottles, drawn from the models themselves. */
class CavityAndSupplyFiguresTest {
    private static double lg(double value) {
        return Math.log10(value);
    }

    private static SvgChart discFriction() {
        double[] x = grid(3, 7, 81);
        SvgChart chart =
                new SvgChart("Enclosed disc, both faces: moment coefficient", "log10 Re", 3, 7, "log10 Cm", -2.8, -0.4);
        for (double gap : new double[] {0.0127, 0.0637, 0.217}) {
            chart.line(
                    String.format(Locale.ROOT, "gap over radius %.4f", gap),
                    x,
                    of(x, re -> lg(DiscFriction.enclosed(Math.pow(10, re), gap))));
        }
        return chart.line("free disc", x, of(x, re -> lg(DiscFriction.free(Math.pow(10, re)))))
                .points("free disc, published", new double[] {5, 6, 7}, new double[] {
                    lg(0.0146), lg(0.00921198), lg(0.00581236)
                });
    }

    private static SvgChart swirl() {
        double[] x = grid(CoreSwirl.MINIMUM_COEFFICIENT, CoreSwirl.MAXIMUM_COEFFICIENT, 61);
        return new SvgChart(
                        "Core swirl over rotor speed (correlation recalled from memory)",
                        "flow coefficient, outward positive",
                        CoreSwirl.MINIMUM_COEFFICIENT,
                        0.12,
                        "swirl ratio",
                        0,
                        2.4)
                .line("with through-flow", x, of(x, CoreSwirl::ratio))
                .line("default with a disc", x, of(x, c -> 0.45));
    }

    private static SvgChart diffusion() {
        double[] x = grid(-4, 12, 65);
        double[] far = grid(1, 12, 23);
        return new SvgChart(
                        "One gap, contaminant 1 outside and 0 inside: what crosses against the purge",
                        "Peclet number of the purge, outward positive",
                        -4,
                        12,
                        "log10 of flow over pure diffusion",
                        -6,
                        2)
                .line("exponential scheme", x, of(x, pe -> lg(-Diffusion.flow(pe, 1, 0, 1))))
                .line("Pe exp(-Pe), far out", far, of(far, pe -> lg(pe * Math.exp(-pe))))
                .points("no flow: diffusion alone", new double[] {0}, new double[] {0});
    }

    private static SvgChart bottle() {
        PureFluid helium = Engines.embedded().pure("helium");
        Bottles still = new Bottles(helium, 0.05, 1, 20e6, 288, 0, 26e3, 0);
        double[] share = grid(0, 0.95, 20);
        SvgChart chart = new SvgChart(
                "Helium, 50 L, 20 MPa, 288 K: temperature as it is drawn", "share drawn", 0, 1, "K", 0, 320);
        chart.line("at constant entropy", share, along(still, share, 600, s -> s.temperature()));
        for (double duration : new double[] {60, 600, 6000}) {
            Bottles warm = new Bottles(helium, 0.05, 1, 20e6, 288, 40, 26e3, 9);
            chart.line(
                    String.format(Locale.ROOT, "walls, drawn in %.0f s", duration),
                    share,
                    along(warm, share, duration, s -> s.temperature()));
        }
        return chart;
    }

    /** A quantity at shares drawn by a steady flow over a time. */
    private static double[] along(
            Bottles bottles, double[] share, double duration, ToDoubleFunction<Emptying.Sample> quantity) {
        double last = share[share.length - 1];
        double flow = last * bottles.filling() / duration;
        List<Double> out = new ArrayList<>();
        Emptying.run(bottles, t -> flow, duration, share.length - 1, 288, 0)
                .samples()
                .forEach(s -> out.add(quantity.applyAsDouble(s)));
        return out.stream().mapToDouble(Double::doubleValue).toArray();
    }

    @Test
    void figuresAreWhatTheModelsGive() throws IOException {
        Map<String, SvgChart> figures = new LinkedHashMap<>();
        figures.put("disc-friction", discFriction());
        figures.put("swirl", swirl());
        figures.put("diffusion", diffusion());
        figures.put("bottle", bottle());
        SvgChart.hold(figures);
    }
}

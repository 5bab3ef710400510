package purgewright.figure;

import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;
import purgewright.sealflow.network.SolveResult;

/**
 * Pressure against enthalpy of one fluid: its dome, lines of constant temperature, and the cavities that hold it. Enthalpies are on
 * the fluid's own reference state, so a cavity's point is its pressure and temperature (in the dome its vapour share) read anew.
 */
public final class FluidChart {
    /** Least share by mass at which a cavity counts as holding the fluid. */
    public static final double SHARE = 0.95;

    private static final double LEFT = 74;
    private static final double TOP = 34;
    private static final double RIGHT = 30;
    private static final double BOTTOM = 54;

    private FluidChart() {}

    /** A cavity on the chart. */
    private record Point(String name, double pressure, double enthalpy, double temperature, double entropy) {}

    /**
     * Draws the chart.
     *
     * @param fluid whose chart
     * @param species its name among the species of the solution
     * @param entropy temperature against entropy in place of pressure against enthalpy
     * @param solved states; cavities with less than {@link #SHARE} of the fluid are left out
     */
    public static Figure draw(
            PureFluid fluid,
            String species,
            boolean entropy,
            SolveResult.Converged solved,
            Readout readout,
            Theme theme,
            double width,
            double height) {
        if (entropy) {
            return entropy(fluid, species, solved, readout, theme, width, height);
        }
        Figure.Builder b = new Figure.Builder(theme);
        Font small = Lettering.font(Font.PLAIN, 10.5);
        Font name = Lettering.font(Font.BOLD, 11);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        List<Point> points = points(fluid, species, solved);
        List<double[]> dome = dome(fluid);
        double lowP = 5e4;
        double highP = fluid.criticalPressure() * 2;
        double lowH = Double.POSITIVE_INFINITY;
        double highH = Double.NEGATIVE_INFINITY;
        for (Point p : points) {
            lowP = Math.min(lowP, p.pressure() * 0.7);
            highP = Math.max(highP, p.pressure() * 1.5);
            lowH = Math.min(lowH, p.enthalpy());
            highH = Math.max(highH, p.enthalpy());
        }
        for (double[] d : dome) {
            if (d[0] >= lowP) {
                lowH = Math.min(lowH, d[1]);
                highH = Math.max(highH, d[1]);
            }
        }
        double spare = Math.max(1e3, (highH - lowH) * 0.12);
        Axes axes = new Axes(lowP, highP, lowH - spare, highH + spare, width, height);
        axes.draw(b, readout, small);
        for (double t : temperatures(fluid, points)) {
            isotherm(b, fluid, t, axes, readout, small);
        }
        Path2D line = new Path2D.Double();
        boolean started = false;
        for (double[] d : dome) {
            if (d[0] < lowP) {
                started = false;
                continue;
            }
            if (started) {
                line.lineTo(axes.x(d[1]), axes.y(d[0]));
            } else {
                line.moveTo(axes.x(d[1]), axes.y(d[0]));
                started = true;
            }
        }
        b.line(line, theme.ink(), 2);
        Tags tags = new Tags(b, name, width, height);
        for (Point p : points) {
            tags.keepFree(new Rectangle2D.Double(axes.x(p.enthalpy()) - 7, axes.y(p.pressure()) - 7, 14, 14));
        }
        for (Point p : points) {
            tags.tag(
                    BarrierSection.cavityPointer(p.name()),
                    p.name(),
                    axes.x(p.enthalpy()),
                    axes.y(p.pressure()),
                    false);
        }
        for (Point p : points) {
            double x = axes.x(p.enthalpy());
            double y = axes.y(p.pressure());
            Ellipse2D dot = new Ellipse2D.Double(x - 5, y - 5, 10, 10);
            b.fill(dot, theme.panel());
            b.line(dot, theme.ink(), 2);
            b.region(BarrierSection.cavityPointer(p.name()), new Ellipse2D.Double(x - 8, y - 8, 16, 16), p.name());
        }
        return b.build(width, height, FigureText.of("fluid.caption", fluid.name()));
    }

    /** Temperature against entropy: dome, lines of constant pressure, cavities. */
    private static Figure entropy(
            PureFluid fluid,
            String species,
            SolveResult.Converged solved,
            Readout readout,
            Theme theme,
            double width,
            double height) {
        Figure.Builder b = new Figure.Builder(theme);
        Font small = Lettering.font(Font.PLAIN, 10.5);
        Font name = Lettering.font(Font.BOLD, 11);
        b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
        List<Point> points = points(fluid, species, solved);
        List<double[]> dome = dome(fluid);
        double lowS = Double.POSITIVE_INFINITY;
        double highS = Double.NEGATIVE_INFINITY;
        double highT = fluid.criticalTemperature() * 1.25;
        for (double[] d : dome) {
            lowS = Math.min(lowS, d[3]);
            highS = Math.max(highS, d[3]);
        }
        for (Point p : points) {
            lowS = Math.min(lowS, p.entropy());
            highS = Math.max(highS, p.entropy());
            highT = Math.max(highT, p.temperature() * 1.08);
        }
        Plot plot = new Plot(
                b,
                new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, height - TOP - BOTTOM),
                Plot.Axis.around(
                        readout.entropyNumber(lowS),
                        readout.entropyNumber(highS),
                        FigureText.of("diagram.entropy", readout.entropyUnit())),
                new Plot.Axis(
                        readout.temperatureNumber(fluid.tripleTemperature() * 0.9),
                        readout.temperatureNumber(highT),
                        false,
                        FigureText.of("fluid.temperature", readout.temperatureUnit())));
        plot.frame(true);
        Tags tags = new Tags(b, name, width, height);
        Tags pressures = new Tags(b, small, width, height);
        for (Point p : points) {
            Rectangle2D spot = new Rectangle2D.Double(
                    plot.x(readout.entropyNumber(p.entropy())) - 7,
                    plot.y(readout.temperatureNumber(p.temperature())) - 7,
                    14,
                    14);
            tags.keepFree(spot);
            pressures.keepFree(spot);
        }
        for (Point p : points) {
            tags.tag(
                    BarrierSection.cavityPointer(p.name()),
                    p.name(),
                    plot.x(readout.entropyNumber(p.entropy())),
                    plot.y(readout.temperatureNumber(p.temperature())),
                    false);
        }
        tags.taken().forEach(pressures::keepFree);
        double unit = readout.pressureNumber(1e6) / 1e6;
        double low = fluid.criticalPressure() / 200;
        for (double power = Math.pow(10, Math.floor(Math.log10(low * unit)));
                power < fluid.criticalPressure() * 3 * unit;
                power *= 10) {
            for (double s : new double[] {1, 3}) {
                double p = s * power / unit;
                if (p >= low && p <= fluid.maximumPressure()) {
                    isobar(b, plot, pressures, fluid, p, highT, readout);
                }
            }
        }
        double[] xs =
                dome.stream().mapToDouble(d -> readout.entropyNumber(d[3])).toArray();
        double[] ys =
                dome.stream().mapToDouble(d -> readout.temperatureNumber(d[2])).toArray();
        plot.curve(xs, ys, theme.ink(), 2);
        plot.outline();
        for (Point p : points) {
            double x = plot.x(readout.entropyNumber(p.entropy()));
            double y = plot.y(readout.temperatureNumber(p.temperature()));
            Ellipse2D dot = new Ellipse2D.Double(x - 5, y - 5, 10, 10);
            b.fill(dot, theme.panel());
            b.line(dot, theme.ink(), 2);
            b.region(BarrierSection.cavityPointer(p.name()), new Ellipse2D.Double(x - 8, y - 8, 16, 16), p.name());
        }
        return b.build(width, height, FigureText.of("fluid.caption.entropy", fluid.name()));
    }

    private static void isobar(
            Figure.Builder b, Plot plot, Tags tags, PureFluid fluid, double p, double highT, Readout readout) {
        int n = 60;
        double[] xs = new double[n + 1];
        double[] ys = new double[n + 1];
        double low = fluid.tripleTemperature() * 1.01;
        int last = -1;
        for (int i = 0; i <= n; i++) {
            double t = low + (highT - low) * i / n;
            try {
                xs[i] = readout.entropyNumber(fluid.atPressureTemperature(p, t).entropy());
                ys[i] = readout.temperatureNumber(t);
                boolean inside = plot.box().contains(plot.x(xs[i]), plot.y(ys[i]));
                last = inside ? i : last;
                xs[i] = inside ? xs[i] : Double.NaN;
            } catch (PropertyException outside) {
                xs[i] = Double.NaN;
            }
        }
        plot.curve(xs, ys, b.theme().quiet(), 0.8);
        if (last > 4) {
            tags.tag("isobar", readout.pressure(p), plot.x(xs[last]) + 6, plot.y(ys[last]) + 10, true);
        }
    }

    private static List<Point> points(PureFluid fluid, String species, SolveResult.Converged solved) {
        List<Point> points = new ArrayList<>();
        if (solved == null) {
            return points;
        }
        for (Map.Entry<String, SolveResult.CavityState> e : solved.cavities().entrySet()) {
            SolveResult.CavityState c = e.getValue();
            if (c.massFractions().getOrDefault(species, 0.0) < SHARE) {
                continue;
            }
            FluidState s = c.state();
            try {
                FluidState own = s.phase() == Phase.TWO_PHASE && s.pressure() < fluid.criticalPressure()
                        ? fluid.atPressureQuality(s.pressure(), Math.max(0, Math.min(1, s.quality())))
                        : fluid.atPressureTemperature(s.pressure(), s.temperature());
                points.add(new Point(e.getKey(), s.pressure(), own.enthalpy(), own.temperature(), own.entropy()));
            } catch (PropertyException outside) {
                // A trace of another stream can put the mixture where the pure fluid has no state: no point, no guess.
                continue;
            }
        }
        return points;
    }

    /** Saturated liquid up to the critical point and vapour down again: pressure, enthalpy, temperature, entropy. */
    private static List<double[]> dome(PureFluid fluid) {
        List<double[]> liquid = new ArrayList<>();
        List<double[]> vapour = new ArrayList<>();
        double low = fluid.tripleTemperature() * 1.001;
        double high = fluid.criticalTemperature() * 0.9995;
        int n = 48;
        for (int i = 0; i <= n; i++) {
            double t = low + (high - low) * Math.sin(Math.PI / 2 * i / n);
            try {
                FluidState l = fluid.atTemperatureQuality(t, 0);
                FluidState v = fluid.atTemperatureQuality(t, 1);
                liquid.add(new double[] {l.pressure(), l.enthalpy(), t, l.entropy()});
                vapour.add(0, new double[] {v.pressure(), v.enthalpy(), t, v.entropy()});
            } catch (PropertyException outside) {
                continue;
            }
        }
        liquid.addAll(vapour);
        return liquid;
    }

    private static List<Double> temperatures(PureFluid fluid, List<Point> points) {
        double low = fluid.tripleTemperature();
        double hottest = points.stream().mapToDouble(Point::temperature).max().orElse(0);
        double high = Math.min(fluid.maximumTemperature(), Math.max(fluid.criticalTemperature() * 1.5, hottest * 1.05));
        double step = high - low > 500 ? 100 : high - low > 200 ? 50 : high - low > 80 ? 20 : high - low > 30 ? 10 : 2;
        List<Double> all = new ArrayList<>();
        for (double t = Math.ceil(low / step) * step; t < high && all.size() < 14; t += step) {
            all.add(t);
        }
        return all;
    }

    /**
     * A line of constant temperature from low to high pressure: pressure, Pa, enthalpy, J/kg. Where it crosses the saturation line both ends
     * of it are points, so that it lies level in the dome. NaN where the fluid has no state.
     */
    static List<double[]> isotherm(PureFluid fluid, double t, double lowP, double highP) {
        List<double[]> line = new ArrayList<>();
        double boiling = Double.NaN;
        double[] enthalpies = new double[2];
        if (t > fluid.tripleTemperature() && t < fluid.criticalTemperature()) {
            try {
                FluidState vapour = fluid.atTemperatureQuality(t, 1);
                boiling = vapour.pressure();
                enthalpies[0] = vapour.enthalpy();
                enthalpies[1] = fluid.atTemperatureQuality(t, 0).enthalpy();
            } catch (PropertyException outside) {
                boiling = Double.NaN; // too near the critical point to tell its two sides apart
            }
        }
        int n = 40;
        double before = Double.POSITIVE_INFINITY;
        for (int i = 0; i <= n; i++) {
            double p = Math.exp(Math.log(lowP) + (Math.log(highP) - Math.log(lowP)) * i / n);
            if (before < boiling && p >= boiling) {
                line.add(new double[] {boiling, enthalpies[0]});
                line.add(new double[] {boiling, enthalpies[1]});
            }
            before = p;
            if (Math.abs(p - boiling) < 1e-6 * p) {
                continue; // on the saturation line pressure and temperature do not say which state it is
            }
            double h = Double.NaN;
            try {
                h = fluid.atPressureTemperature(p, t).enthalpy();
            } catch (PropertyException outside) {
                h = Double.NaN;
            }
            line.add(new double[] {p, h});
        }
        return line;
    }

    private static void isotherm(Figure.Builder b, PureFluid fluid, double t, Axes axes, Readout readout, Font font) {
        Path2D path = new Path2D.Double();
        boolean started = false;
        double lastX = 0;
        double lastY = 0;
        for (double[] point : isotherm(fluid, t, axes.lowP(), axes.highP())) {
            double x = axes.x(point[1]);
            if (!(x >= LEFT && x <= axes.width() - RIGHT)) {
                started = false;
                continue;
            }
            double y = axes.y(point[0]);
            if (started) {
                path.lineTo(x, y);
            } else {
                path.moveTo(x, y);
                started = true;
            }
            lastX = x;
            lastY = y;
        }
        b.line(path, b.theme().rule(), 1);
        if (lastY > 0 && lastY < TOP + 8) {
            String text = readout.temperature(t);
            if (lastX + Lettering.width(font, text) / 2 < axes.width()) {
                axes.top(b, text, lastX, font);
            }
        }
    }

    /** Logarithmic pressure upward, enthalpy to the right. */
    private static final class Axes {
        private final double lowP;
        private final double highP;
        private final double lowH;
        private final double highH;
        private final double width;
        private final double height;
        private double lastTop = -1e9;

        Axes(double lowP, double highP, double lowH, double highH, double width, double height) {
            this.lowP = lowP;
            this.highP = highP;
            this.lowH = lowH;
            this.highH = highH;
            this.width = width;
            this.height = height;
        }

        double lowP() {
            return lowP;
        }

        double highP() {
            return highP;
        }

        double width() {
            return width;
        }

        double x(double h) {
            return LEFT + (h - lowH) / (highH - lowH) * (width - LEFT - RIGHT);
        }

        double y(double p) {
            return height - BOTTOM - Math.log(p / lowP) / Math.log(highP / lowP) * (height - TOP - BOTTOM);
        }

        /** A temperature above the frame, where there is room since the last. */
        void top(Figure.Builder b, String text, double x, Font font) {
            double half = Lettering.width(font, text) / 2;
            if (Math.abs(x - lastTop) > 2 * half + 8) {
                b.centred("isotherm", text, x, TOP - 6, font, b.theme().quiet());
                lastTop = x;
            }
        }

        void draw(Figure.Builder b, Readout readout, Font font) {
            Theme theme = b.theme();
            b.line(new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, height - TOP - BOTTOM), theme.ink(), 1);
            double unit = readout.pressureNumber(1e6) / 1e6;
            for (double power = Math.pow(10, Math.floor(Math.log10(lowP * unit))); power < highP * unit; power *= 10) {
                for (double s : new double[] {1, 2, 5}) {
                    double p = s * power / unit;
                    if (p >= lowP && p <= highP) {
                        b.segment(LEFT - 4, y(p), LEFT, y(p), theme.ink(), 1);
                        b.right("axis", trim(s * power), LEFT - 7, y(p) + 4, font, theme.quiet());
                    }
                }
            }
            b.text(
                    "axis",
                    FigureText.of("fluid.pressure", readout.pressureUnit()),
                    8,
                    TOP - 16,
                    Lettering.font(Font.BOLD, 11),
                    theme.ink());
            double perUnit = readout.enthalpyNumber(1);
            double low = lowH * perUnit;
            double high = highH * perUnit;
            double step = Math.pow(10, Math.floor(Math.log10((high - low) / 4)));
            step *= (high - low) / step > 10 ? 2 : 1;
            for (double h = Math.ceil(low / step) * step; h <= high; h += step) {
                double x = x(h / perUnit);
                b.segment(x, height - BOTTOM, x, height - BOTTOM + 4, theme.ink(), 1);
                if (Math.round(h / step) % 2 == 0) {
                    b.centred("axis", trim(h), x, height - BOTTOM + 17, font, theme.quiet());
                }
            }
            b.right(
                    "axis",
                    FigureText.of("diagram.enthalpy", readout.enthalpyUnit()),
                    width - RIGHT,
                    height - BOTTOM + 38,
                    Lettering.font(Font.BOLD, 11),
                    theme.ink());
        }

        private static String trim(double v) {
            String text = new java.math.BigDecimal(v)
                    .round(new java.math.MathContext(4))
                    .stripTrailingZeros()
                    .toPlainString();
            return text.equals("0") || Math.abs(v) < 1e-9 ? "0" : text.replace('-', '−');
        }
    }
}

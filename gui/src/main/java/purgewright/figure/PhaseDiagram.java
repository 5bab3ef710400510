package purgewright.figure;

import java.awt.Font;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import purgewright.fluids.FluidState;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

/**
 * The phases of one fluid: pressure against enthalpy with lines of constant temperature and entropy, or temperature against entropy with
 * lines of constant pressure and enthalpy; the dome with lines of constant vapour share, and the critical point. Enthalpy and entropy are
 * on the fluid's own reference state.
 */
public final class PhaseDiagram {
    private static final double LEFT = 82;
    private static final double TOP = 40;
    private static final double RIGHT = 26;
    private static final double BOTTOM = 62;
    private static final int POINTS = 160;

    private PhaseDiagram() {}

    /** Which two quantities. */
    public enum Kind {
        /** Logarithmic pressure over enthalpy. */
        PRESSURE_ENTHALPY,
        /** Temperature over entropy. */
        TEMPERATURE_ENTROPY
    }

    /**
     * What part of the fluid is drawn.
     *
     * @param lowPressure Pa
     * @param highPressure Pa
     * @param lowTemperature K
     * @param highTemperature K
     */
    public record Window(double lowPressure, double highPressure, double lowTemperature, double highTemperature) {
        /** Around the dome: from near the triple point to five times the critical pressure and twice the critical temperature. */
        public static Window of(PureFluid fluid) {
            double triple = fluid.saturationPressure(fluid.tripleTemperature());
            return new Window(
                    Math.max(triple, fluid.criticalPressure() / 500),
                    Math.min(fluid.maximumPressure(), 5 * fluid.criticalPressure()),
                    fluid.tripleTemperature(),
                    Math.min(fluid.maximumTemperature(), 2 * fluid.criticalTemperature()));
        }

        /** With other ends of pressure, in either order; NaN keeps an end. */
        public Window withPressures(double from, double to) {
            double a = Double.isNaN(from) ? lowPressure : from;
            double b = Double.isNaN(to) ? highPressure : to;
            return new Window(Math.min(a, b), Math.max(a, b), lowTemperature, highTemperature);
        }

        /** With other ends of temperature, in either order; NaN keeps an end. */
        public Window withTemperatures(double from, double to) {
            double a = Double.isNaN(from) ? lowTemperature : from;
            double b = Double.isNaN(to) ? highTemperature : to;
            return new Window(lowPressure, highPressure, Math.min(a, b), Math.max(a, b));
        }
    }

    /** Draws the diagram. */
    public static Figure draw(
            PureFluid fluid, Kind kind, Window window, Readout readout, Theme theme, double width, double height) {
        return new Drawing(fluid, kind, window, readout, theme, width, height).figure();
    }

    /** One drawing under way. */
    private static final class Drawing {
        private final PureFluid fluid;
        private final boolean ph;
        private final Window window;
        private final Readout readout;
        private final Figure.Builder b;
        private final double width;
        private final double height;
        private final Font small = Lettering.font(Font.PLAIN, 11);
        private final Font bold = Lettering.font(Font.BOLD, 12);
        private final Rectangle2D frame;
        private final List<Rectangle2D> taken = new ArrayList<>();
        private final List<FluidState> liquid = new ArrayList<>();
        private final List<FluidState> vapour = new ArrayList<>();
        private final FluidState critical;
        private double lowX = Double.POSITIVE_INFINITY;
        private double highX = Double.NEGATIVE_INFINITY;
        private final double lowY;
        private final double highY;

        Drawing(PureFluid fluid, Kind kind, Window window, Readout readout, Theme theme, double width, double height) {
            this.fluid = fluid;
            this.ph = kind == Kind.PRESSURE_ENTHALPY;
            this.window = window;
            this.readout = readout;
            this.b = new Figure.Builder(theme);
            this.width = width;
            this.height = height;
            this.frame = new Rectangle2D.Double(LEFT, TOP, width - LEFT - RIGHT, height - TOP - BOTTOM);
            this.lowY = ph ? window.lowPressure() : window.lowTemperature();
            this.highY = ph ? window.highPressure() : window.highTemperature();
            dome();
            this.critical = fluid.atTemperatureQuality(fluid.criticalTemperature() * (1 - 1e-9), 0);
            extent();
        }

        private double xOf(FluidState s) {
            return ph ? s.enthalpy() : s.entropy();
        }

        private double yOf(FluidState s) {
            return ph ? s.pressure() : s.temperature();
        }

        private double px(double x) {
            return frame.getX() + (x - lowX) / (highX - lowX) * frame.getWidth();
        }

        private double py(double y) {
            double share = ph ? Math.log(y / lowY) / Math.log(highY / lowY) : (y - lowY) / (highY - lowY);
            return frame.getMaxY() - share * frame.getHeight();
        }

        private void dome() {
            double low = Math.max(fluid.tripleTemperature(), window.lowTemperature());
            double high = fluid.criticalTemperature() * (1 - 1e-7);
            if (ph) {
                double triple = fluid.saturationPressure(fluid.tripleTemperature());
                if (window.lowPressure() > triple && window.lowPressure() < fluid.criticalPressure()) {
                    low = Math.max(low, fluid.saturationTemperature(window.lowPressure()));
                }
            }
            if (!(low < high)) {
                return;
            }
            int n = 120;
            for (int i = 0; i <= n; i++) {
                // Closer and closer towards the critical point, where the line turns over.
                double t = low + (high - low) * (1 - Math.pow(1 - (double) i / n, 3));
                liquid.add(fluid.atTemperatureQuality(t, 0));
                vapour.add(fluid.atTemperatureQuality(t, 1));
            }
        }

        /** The horizontal axis: all that the window of pressure and temperature holds, and the dome in it. */
        private void extent() {
            for (List<FluidState> side : List.of(liquid, vapour)) {
                for (FluidState s : side) {
                    if (yOf(s) >= lowY && yOf(s) <= highY) {
                        widen(xOf(s));
                    }
                }
            }
            for (double p : new double[] {
                window.lowPressure(), Math.sqrt(window.lowPressure() * window.highPressure()), window.highPressure()
            }) {
                // Entropy has no end at low pressure: hot thin gas is left to run out of the frame.
                for (double t : ph
                        ? new double[] {window.lowTemperature(), window.highTemperature()}
                        : new double[] {
                            window.lowTemperature(), 0.5 * (window.lowTemperature() + window.highTemperature())
                        }) {
                    FluidState s = state(() -> fluid.atPressureTemperature(p, t));
                    if (s != null) {
                        widen(xOf(s));
                    }
                }
            }
            if (!(highX > lowX)) {
                throw new PropertyException(
                        PropertyException.Key.NO_SUCH_STATE,
                        java.util.Map.of(
                                "fluid",
                                fluid.name(),
                                "pressure",
                                window.lowPressure(),
                                "temperature",
                                window.lowTemperature()));
            }
            double spare = 0.03 * (highX - lowX);
            lowX -= spare;
            highX += spare;
        }

        private void widen(double x) {
            lowX = Math.min(lowX, x);
            highX = Math.max(highX, x);
        }

        private static FluidState state(java.util.function.Supplier<FluidState> asked) {
            try {
                return asked.get();
            } catch (PropertyException outside) {
                return null; // the line ends here: solid, or beyond the equation
            }
        }

        Figure figure() {
            Theme theme = b.theme();
            b.fill(new Rectangle2D.Double(0, 0, width, height), theme.paper());
            if (!liquid.isEmpty()) {
                Path2D area = new Path2D.Double();
                boolean first = true;
                for (int i = 0; i < 2 * liquid.size(); i++) {
                    FluidState s = i < liquid.size() ? liquid.get(i) : vapour.get(2 * liquid.size() - 1 - i);
                    double x = px(xOf(s));
                    double y = Math.max(frame.getY(), Math.min(frame.getMaxY(), py(yOf(s))));
                    if (first) {
                        area.moveTo(x, y);
                        first = false;
                    } else {
                        area.lineTo(x, y);
                    }
                }
                area.closePath();
                b.fill(area, theme.panel());
            }
            axes();
            for (double q = 0.1; q < 0.95; q += 0.1) {
                quality(Math.round(q * 10) / 10.0);
            }
            List<Curve> labelled = new ArrayList<>();
            if (ph) {
                for (double t : steps(
                        readout.temperatureNumber(window.lowTemperature()),
                        readout.temperatureNumber(window.highTemperature()),
                        12)) {
                    double kelvin = readout.temperatureFrom(t);
                    labelled.add(curve(
                            p -> fluid.atPressureTemperature(p, kelvin), kelvin, readout.temperature(kelvin), true));
                }
                double scale = readout.entropyNumber(1);
                for (double s : steps(least(FluidState::entropy) * scale, most(FluidState::entropy) * scale, 10)) {
                    labelled.add(curve(
                            p -> fluid.atPressureEntropy(p, s / scale),
                            Double.NaN,
                            FigureText.of("diagram.isentrope", number(s)),
                            false));
                }
            } else {
                for (double p : decades(window.lowPressure(), window.highPressure())) {
                    labelled.add(isobar(p));
                }
            }
            for (Curve curve : labelled) {
                paint(curve);
            }
            domeLine();
            for (Curve curve : labelled) {
                label(curve);
            }
            return b.build(
                    width,
                    height,
                    FigureText.of(
                            ph ? "diagram.caption.ph" : "diagram.caption.ts", fluid.name(), readout.entropyUnit()));
        }

        private double least(ToDoubleFunction<FluidState> of) {
            return corners().stream().mapToDouble(of).min().orElse(0);
        }

        private double most(ToDoubleFunction<FluidState> of) {
            return corners().stream().mapToDouble(of).max().orElse(0);
        }

        private List<FluidState> corners() {
            List<FluidState> corners = new ArrayList<>(liquid);
            corners.addAll(vapour);
            for (double p : new double[] {window.lowPressure(), window.highPressure()}) {
                for (double t : new double[] {window.lowTemperature(), window.highTemperature()}) {
                    FluidState s = state(() -> fluid.atPressureTemperature(p, t));
                    if (s != null) {
                        corners.add(s);
                    }
                }
            }
            return corners;
        }

        /** A line of the drawing and its name. */
        private record Curve(List<double[]> points, String name, boolean main) {}

        /** Along pressure; an isotherm gets its crossing of the dome. */
        private Curve curve(DoubleFunction<FluidState> at, double isotherm, String name, boolean main) {
            List<double[]> points = new ArrayList<>();
            double boiling = isotherm >= fluid.tripleTemperature() && isotherm < fluid.criticalTemperature()
                    ? fluid.saturationPressure(isotherm)
                    : Double.NaN;
            boolean crossed = Double.isNaN(boiling);
            for (int i = 0; i <= POINTS; i++) {
                double p = lowY * Math.pow(highY / lowY, (double) i / POINTS);
                if (!crossed && p > boiling) {
                    crossed = true;
                    add(points, state(() -> fluid.atTemperatureQuality(isotherm, 1)));
                    add(points, state(() -> fluid.atTemperatureQuality(isotherm, 0)));
                }
                add(points, state(() -> at.apply(p)));
            }
            return new Curve(points, name, main);
        }

        private Curve isobar(double p) {
            List<double[]> points = new ArrayList<>();
            double triple = fluid.saturationPressure(fluid.tripleTemperature());
            double boiling = p > triple && p < fluid.criticalPressure() ? fluid.saturationTemperature(p) : Double.NaN;
            boolean crossed = Double.isNaN(boiling);
            for (int i = 0; i <= POINTS; i++) {
                double t = lowY + (highY - lowY) * i / POINTS;
                if (!crossed && t > boiling) {
                    crossed = true;
                    add(points, state(() -> fluid.atPressureQuality(p, 0)));
                    add(points, state(() -> fluid.atPressureQuality(p, 1)));
                }
                add(points, state(() -> fluid.atPressureTemperature(p, t)));
            }
            return new Curve(points, readout.pressure(p), true);
        }

        /** A point of a line; null breaks it. */
        private void add(List<double[]> points, FluidState s) {
            points.add(s == null ? null : new double[] {px(xOf(s)), py(yOf(s))});
        }

        private void paint(Curve curve) {
            Shape path = clipped(curve.points());
            if (curve.main()) {
                b.line(path, b.theme().quiet(), 1);
            } else {
                b.dashed(path, b.theme().quiet(), 0.8, 1.5f, 3);
            }
        }

        /** What of a line lies in the frame; a stretch that leaves it ends on its edge. */
        private Path2D clipped(List<double[]> points) {
            Path2D path = new Path2D.Double();
            double[] last = null;
            boolean open = false;
            for (double[] point : points) {
                if (point == null || last == null) {
                    open = false;
                } else {
                    java.awt.geom.Line2D piece = new java.awt.geom.Line2D.Double(last[0], last[1], point[0], point[1]);
                    double[] cut = cut(piece);
                    if (cut == null) {
                        open = false;
                    } else {
                        if (!open || cut[0] != last[0] || cut[1] != last[1]) {
                            path.moveTo(cut[0], cut[1]);
                        }
                        path.lineTo(cut[2], cut[3]);
                        open = cut[2] == point[0] && cut[3] == point[1];
                    }
                }
                last = point;
            }
            return path;
        }

        /** A piece of line cut to the frame after Liang and Barsky; null when none of it is inside. */
        private double[] cut(java.awt.geom.Line2D piece) {
            double from = 0;
            double to = 1;
            double dx = piece.getX2() - piece.getX1();
            double dy = piece.getY2() - piece.getY1();
            double[] towards = {-dx, dx, -dy, dy};
            double[] room = {
                piece.getX1() - frame.getMinX(),
                frame.getMaxX() - piece.getX1(),
                piece.getY1() - frame.getMinY(),
                frame.getMaxY() - piece.getY1()
            };
            for (int i = 0; i < 4; i++) {
                if (towards[i] == 0) {
                    if (room[i] < 0) {
                        return null;
                    }
                } else if (towards[i] < 0) {
                    from = Math.max(from, room[i] / towards[i]);
                } else {
                    to = Math.min(to, room[i] / towards[i]);
                }
            }
            if (!(from < to)) {
                return null;
            }
            return new double[] {
                from > 0 ? piece.getX1() + from * dx : piece.getX1(),
                from > 0 ? piece.getY1() + from * dy : piece.getY1(),
                to < 1 ? piece.getX1() + to * dx : piece.getX2(),
                to < 1 ? piece.getY1() + to * dy : piece.getY2()
            };
        }

        private void quality(double q) {
            List<double[]> points = new ArrayList<>();
            for (int i = 0; i < liquid.size(); i++) {
                FluidState l = liquid.get(i);
                FluidState v = vapour.get(i);
                double x = xOf(l) + q * (xOf(v) - xOf(l));
                points.add(new double[] {px(x), py(yOf(l))});
            }
            b.dashed(clipped(points), b.theme().rule(), 1, 5, 4);
            if (Math.round(q * 10) % 2 == 0) {
                // The share stands on its line, a little above the lower edge of the dome.
                for (double[] point : points) {
                    if (point[1] < frame.getMaxY() - 14
                            && place(
                                    FigureText.of("diagram.share", number(q)),
                                    point[0],
                                    point[1],
                                    b.theme().quiet())) {
                        return;
                    }
                }
            }
        }

        private void domeLine() {
            List<double[]> points = new ArrayList<>();
            liquid.forEach(s -> add(points, s));
            for (int i = vapour.size() - 1; i >= 0; i--) {
                add(points, vapour.get(i));
            }
            b.line(clipped(points), b.theme().ink(), 2.2);
            double x = px(xOf(critical));
            double y = py(yOf(critical));
            if (frame.contains(x, y)) {
                Ellipse2D dot = new Ellipse2D.Double(x - 4, y - 4, 8, 8);
                b.fill(dot, b.theme().ink());
                String text = FigureText.of(
                        "diagram.critical",
                        readout.pressure(fluid.criticalPressure()),
                        readout.temperature(fluid.criticalTemperature()));
                // Near the edge of the frame the words stand beside the point, not over it.
                double half = Lettering.width(small, text) / 2 + 6;
                double middle = Math.max(frame.getMinX() + half, Math.min(frame.getMaxX() - half, x));
                for (double up : new double[] {14, 26, 40, 56, -16, -30}) {
                    if (place(text, middle, y - up, b.theme().ink())) {
                        return;
                    }
                }
            }
        }

        private void label(Curve curve) {
            // From the upper end downwards, until there is room.
            List<double[]> inside = new ArrayList<>();
            for (double[] point : curve.points()) {
                if (point != null && frame.contains(point[0], point[1])) {
                    inside.add(point);
                }
            }
            int n = inside.size();
            for (int i = 0; i < n; i += 3) {
                double[] point = inside.get(curve.main() ? n - 1 - i : i);
                if (place(
                        curve.name(),
                        point[0],
                        point[1],
                        curve.main() ? b.theme().ink() : b.theme().quiet())) {
                    return;
                }
            }
        }

        /** A text centred on a point of its line; false where it would leave the frame or meet another. */
        private boolean place(String text, double x, double y, java.awt.Color color) {
            double w = Lettering.width(small, text) + 6;
            double h = small.getSize2D() + 3;
            Rectangle2D box = new Rectangle2D.Double(x - w / 2, y - h / 2, w, h);
            if (!new Rectangle2D.Double(frame.getX() + 2, frame.getY() + 2, frame.getWidth() - 4, frame.getHeight() - 4)
                            .contains(box)
                    || taken.stream().anyMatch(box::intersects)) {
                return false;
            }
            taken.add(box);
            b.fill(box, b.theme().paper());
            b.centred("diagram", text, x, y + small.getSize2D() / 2 - 2, small, color);
            return true;
        }

        private void axes() {
            Theme theme = b.theme();
            b.line(frame, theme.ink(), 1);
            if (ph) {
                double unit = readout.pressureNumber(1e6) / 1e6;
                for (double p : decades(lowY, highY)) {
                    tickY(py(p), number(p * unit));
                }
            } else {
                for (double t : steps(readout.temperatureNumber(lowY), readout.temperatureNumber(highY), 9)) {
                    tickY(py(readout.temperatureFrom(t)), number(t));
                }
            }
            double scale = ph ? readout.enthalpyNumber(1) : readout.entropyNumber(1);
            for (double v : steps(lowX * scale, highX * scale, 9)) {
                double x = px(v / scale);
                b.segment(x, frame.getMaxY(), x, frame.getMaxY() + 5, theme.ink(), 1);
                b.centred("axis", number(v), x, frame.getMaxY() + 19, small, theme.ink());
            }
            b.text(
                    "axis",
                    ph
                            ? FigureText.of("fluid.pressure", readout.pressureUnit())
                            : FigureText.of("diagram.temperature", readout.temperatureUnit()),
                    10,
                    TOP - 16,
                    bold,
                    theme.ink());
            b.right(
                    "axis",
                    ph
                            ? FigureText.of("diagram.enthalpy", readout.enthalpyUnit())
                            : FigureText.of("diagram.entropy", readout.entropyUnit()),
                    frame.getMaxX(),
                    frame.getMaxY() + 42,
                    bold,
                    theme.ink());
            b.right("title", fluid.name(), frame.getMaxX(), TOP - 16, bold, theme.ink());
        }

        private void tickY(double y, String text) {
            b.segment(frame.getX() - 5, y, frame.getX(), y, b.theme().ink(), 1);
            b.right("axis", text, frame.getX() - 8, y + 4, small, b.theme().ink());
        }

        /** 1, 2, 5 of each decade in the shown unit, between two pressures, Pa. */
        private List<Double> decades(double low, double high) {
            double unit = readout.pressureNumber(1e6) / 1e6;
            List<Double> all = new ArrayList<>();
            for (double power = Math.pow(10, Math.floor(Math.log10(low * unit))); power <= high * unit; power *= 10) {
                for (double s : new double[] {1, 2, 5}) {
                    double p = s * power / unit;
                    if (p >= low * (1 - 1e-12) && p <= high * (1 + 1e-12)) {
                        all.add(p);
                    }
                }
            }
            return all;
        }

        /** Round numbers between two, about so many. */
        private static List<Double> steps(double low, double high, int about) {
            double raw = (high - low) / about;
            double power = Math.pow(10, Math.floor(Math.log10(raw)));
            double step = raw / power < 1.5
                    ? power
                    : raw / power < 3.5 ? 2 * power : raw / power < 7.5 ? 5 * power : 10 * power;
            List<Double> all = new ArrayList<>();
            for (long k = (long) Math.ceil(low / step); k * step <= high; k++) {
                all.add(k * step);
            }
            return all;
        }

        private static String number(double v) {
            return Readout.plain(v);
        }
    }
}

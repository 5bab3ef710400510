package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import purgewright.sealflow.model.PassageSpec;

/**
 * Each kind of seal as it looks in section, and each thing in a pipe as its symbol. Our own drawings. Heights are distances
 * outward from the rotor's surface.
 */
final class SealShapes {
    private final Figure.Builder b;
    private final Theme theme;

    SealShapes(Figure.Builder b) {
        this.b = b;
        this.theme = b.theme();
    }

    /** Maps (x, distance outward) to the page. */
    private record Frame(double centre, double surface, boolean up) {
        double y(double outward) {
            return up ? surface - outward : surface + outward;
        }

        Rectangle2D box(double x1, double x2, double low, double high) {
            double a = y(low);
            double c = y(high);
            return new Rectangle2D.Double(centre + x1, Math.min(a, c), x2 - x1, Math.abs(c - a));
        }

        Path2D polygon(double... xy) {
            Path2D path = new Path2D.Double();
            for (int i = 0; i < xy.length; i += 2) {
                if (i == 0) {
                    path.moveTo(centre + xy[i], y(xy[i + 1]));
                } else {
                    path.lineTo(centre + xy[i], y(xy[i + 1]));
                }
            }
            path.closePath();
            return path;
        }
    }

    private void part(java.awt.Shape shape, Color color) {
        b.fill(shape, color);
        b.line(shape, theme.ink(), 1);
    }

    /** Draws a shaft seal in its gap. */
    void seal(PassageSpec seal, double centre, double surface, boolean up, double half) {
        Frame f = new Frame(centre, surface, up);
        double hw = Math.min(half, 42);
        switch (seal.type()) {
            case "labyrinth" -> labyrinth(seal, f, hw);
            case "floating ring" -> ring(f, hw, false);
            case "segmented ring" -> ring(f, hw, true);
            case "face" -> face(f, false);
            case "hydrodynamic face" -> face(f, true);
            case "bushing" -> bushing(f, hw);
            case "rim" -> rim(f, hw);
            case "slinger" -> slinger(f);
            case "brush" -> brush(f);
            case "measured", "static seal" -> {
                part(f.box(-22, 22, 15, 42), theme.panel());
                Font font = Lettering.font(Font.ITALIC, 12);
                b.centred(
                        seal.name() + "#symbol",
                        seal.type().equals("measured") ? "f(p)" : "static",
                        centre,
                        f.y(28) + 4,
                        font,
                        theme.ink());
            }
            default -> part(f.box(-hw + 6, hw - 6, 15, 34), theme.panel());
        }
    }

    private void labyrinth(PassageSpec seal, Frame f, double hw) {
        int teeth = (int) Math.max(1, Math.min(40, Math.round(seal.number("teeth", 4))));
        String arrangement = seal.word("arrangement", "straight");
        boolean honeycomb = seal.word("land", "smooth").equals("honeycomb");
        double pitch = 2 * hw / teeth;
        double land = SectionLayout.CHANNEL;
        if (honeycomb) {
            Path2D cells = new Path2D.Double();
            for (double x = -hw; x <= hw; x += 5) {
                cells.moveTo(f.centre() + x, f.y(land));
                cells.lineTo(f.centre() + x, f.y(land + 9));
            }
            cells.moveTo(f.centre() - hw, f.y(land + 9));
            cells.lineTo(f.centre() + hw, f.y(land + 9));
            b.line(cells, theme.ink(), 0.8);
        }
        double base = Math.min(pitch * 0.34, 4.5);
        double tip = Math.min(base * 0.4, 1.4);
        for (int i = 0; i < teeth; i++) {
            double x = -hw + (i + 0.5) * pitch;
            boolean fromStator = arrangement.equals("interlocking") && i % 2 == 1;
            double rise = arrangement.equals("stepped") ? (i % 2 == 0 ? 0 : 5) : 0;
            if (fromStator) {
                part(f.polygon(x - base, land, x - tip, 6, x + tip, 6, x + base, land), theme.stator());
            } else {
                if (rise > 0) {
                    part(f.box(x - pitch / 2, x + pitch / 2, 0, rise), theme.rotor());
                }
                part(f.polygon(x - base, rise, x - tip, rise + 12, x + tip, rise + 12, x + base, rise), theme.rotor());
            }
        }
    }

    private void ring(Frame f, double hw, boolean segmented) {
        double r = Math.min(hw - 8, 24);
        part(f.box(-r - 8, r + 5, 22, 56), theme.paper());
        Rectangle2D body = f.box(-r, r, 14, 46);
        b.fill(body, theme.panel());
        Path2D cross = new Path2D.Double();
        cross.moveTo(f.centre() - r, f.y(14));
        cross.lineTo(f.centre() + r, f.y(46));
        cross.moveTo(f.centre() - r, f.y(46));
        cross.lineTo(f.centre() + r, f.y(14));
        b.line(cross, theme.quiet(), 0.8);
        b.line(body, theme.ink(), 1.2);
        if (segmented) {
            b.segment(f.centre(), f.y(14), f.centre(), f.y(46), theme.ink(), 1.2);
            b.line(new Ellipse2D.Double(f.centre() - 4, f.y(51) - 4, 8, 8), theme.ink(), 1.2);
        }
    }

    /** A plain sleeve held in the casing. */
    private void bushing(Frame f, double hw) {
        double r = Math.min(hw - 6, 30);
        part(f.box(-r, r, 12, 40), theme.stator());
        b.segment(f.centre() - r, f.y(30), f.centre() + r, f.y(30), theme.ink(), 0.8);
    }

    private void face(Frame f, boolean grooved) {
        part(f.box(-26, -4, 0, 48), theme.rotor());
        part(f.polygon(0, 12, 7, 12, 7, 8, 26, 8, 26, 44, 7, 44, 7, 38, 0, 38), theme.panel());
        Path2D spring = new Path2D.Double();
        spring.moveTo(f.centre() + 26, f.y(26));
        for (int i = 0; i < 5; i++) {
            spring.lineTo(f.centre() + 28 + i * 3.2, f.y(26 + (i % 2 == 0 ? 6 : -6)));
        }
        spring.lineTo(f.centre() + 44, f.y(26));
        b.fill(f.box(26, 44, 14, 38), theme.paper());
        b.line(spring, theme.ink(), 1.1);
        b.fill(f.box(-4, 0, 2, 50), theme.paper());
        if (grooved) {
            // Grooves from the outer edge in, as notches of the turning face.
            for (double d = 26; d <= 42; d += 8) {
                part(f.box(-10, -4, d, d + 4), theme.paper());
            }
        }
        b.segment(f.centre() - 2, f.y(0), f.centre() - 2, f.y(50), theme.quiet(), 0.8);
    }

    private void rim(Frame f, double hw) {
        double w = Math.min(hw - 4, 30);
        part(f.polygon(-w, 0, -w + 12, 0, -w + 12, 8, w - 12, 8, w - 12, 14, -w, 14), theme.rotor());
        part(f.polygon(w, 40, w - 10, 40, w - 10, 28, -w + 16, 28, -w + 16, 22, w, 22), theme.stator());
    }

    private void slinger(Frame f) {
        part(f.box(-15, 17, 22, 58), theme.paper());
        part(f.box(-5, 5, 0, 50), theme.rotor());
        for (double d = 14; d <= 46; d += 8) {
            part(f.box(5, 10, d, d + 3), theme.rotor());
        }
    }

    private void brush(Frame f) {
        part(f.box(-20, -9, 20, 56), theme.panel());
        part(f.box(9, 20, 12, 56), theme.panel());
        Path2D bristles = new Path2D.Double();
        for (double x = -8; x <= 8; x += 2) {
            bristles.moveTo(f.centre() + x, f.y(56));
            bristles.lineTo(f.centre() + x, f.y(2));
        }
        b.line(bristles, theme.ink(), 0.9);
    }

    /** Draws what sits in a pipe; {@code inward} when flow counted positive runs towards the casing. */
    void duct(PassageSpec passage, double x, double y, boolean towardsTop, double pipe) {
        double s = 9;
        switch (passage.type()) {
            case "orifice" -> {
                double w = Math.max(pipe / 2 + 5, s);
                part(new Rectangle2D.Double(x - w, y - 2.5, w - 2.2, 5), theme.ink());
                part(new Rectangle2D.Double(x + 2.2, y - 2.5, w - 2.2, 5), theme.ink());
            }
            case "check valve" -> {
                double d = towardsTop ? -1 : 1;
                Path2D body = new Path2D.Double();
                body.moveTo(x - s, y - d * s * 0.8);
                body.lineTo(x + s, y - d * s * 0.8);
                body.lineTo(x, y + d * s * 0.7);
                body.closePath();
                part(body, theme.panel());
                b.segment(x - s, y + d * s * 0.8, x + s, y + d * s * 0.8, theme.ink(), 2.2);
            }
            case "nozzle" -> {
                Path2D throat = new Path2D.Double();
                double d = towardsTop ? -1 : 1;
                throat.moveTo(x - s, y - d * s);
                throat.quadTo(x - 3, y - d * 2, x - 3, y + d * s);
                throat.lineTo(x + 3, y + d * s);
                throat.quadTo(x + 3, y - d * 2, x + s, y - d * s);
                throat.closePath();
                part(throat, theme.panel());
            }
            case "bend" -> {
                Path2D turn = new Path2D.Double();
                turn.moveTo(x, y - s);
                turn.quadTo(x, y, x + s, y);
                part(new Ellipse2D.Double(x - s, y - s, 2 * s, 2 * s), theme.panel());
                b.line(turn, theme.ink(), 2);
            }
            case "holes" -> {
                double w = Math.max(pipe / 2 + 5, s);
                part(new Rectangle2D.Double(x - w, y - 4, 2 * w, 8), theme.panel());
                for (int i = -1; i <= 1; i++) {
                    b.fill(new Ellipse2D.Double(x + i * w * 0.6 - 2, y - 2, 4, 4), theme.ink());
                }
            }
            case "valve" -> part(bow(x, y, s), theme.panel());
            case "relief valve" -> {
                part(bow(x, y, s), theme.panel());
                Path2D spring = new Path2D.Double();
                spring.moveTo(x, y);
                for (int i = 1; i <= 4; i++) {
                    spring.lineTo(x + 3 * i, y + (i % 2 == 0 ? 3 : -3));
                }
                b.line(spring, theme.ink(), 1.2);
            }
            case "filter" -> {
                Rectangle2D body = new Rectangle2D.Double(x - s, y - s * 0.8, 2 * s, 1.6 * s);
                part(body, theme.panel());
                b.dashed(new java.awt.geom.Line2D.Double(x - s, y, x + s, y), theme.ink(), 1.4, 3, 2);
            }
            case "static seal" -> {
                part(new Rectangle2D.Double(x - s, y - s, 2 * s, 2 * s), theme.panel());
                part(new Ellipse2D.Double(x - 4, y - 4, 8, 8), theme.ink());
            }
            case "measured" -> {
                part(new Ellipse2D.Double(x - s, y - s, 2 * s, 2 * s), theme.panel());
                b.centred(passage.name() + "#symbol", "f", x, y + 4, Lettering.font(Font.ITALIC, 12), theme.ink());
            }
            default -> {
                double w = pipe / 2 + 4;
                b.segment(x - w, y + 3, x + w, y - 4, theme.paper(), 4);
                b.segment(x - w, y + 5, x + w, y - 2, theme.ink(), 1.1);
                b.segment(x - w, y + 1, x + w, y - 6, theme.ink(), 1.1);
            }
        }
        if (passage.closed()) {
            part(bow(x, y, s), theme.ink());
        }
    }

    private static Path2D bow(double x, double y, double s) {
        Path2D bow = new Path2D.Double();
        bow.moveTo(x - s, y - s);
        bow.lineTo(x + s, y + s);
        bow.lineTo(x + s, y - s);
        bow.lineTo(x - s, y + s);
        bow.closePath();
        return bow;
    }
}

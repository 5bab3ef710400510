package purgewright.figure;

import java.awt.Color;
import java.awt.Font;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import purgewright.hazard.finding.Verdict;

/** Verdicts as shapes: a tick, a box with an open edge, a solid bar, a question mark, a crossed ring. Colour comes second. */
public final class VerdictMark {
    private VerdictMark() {}

    /** Hue of a verdict. */
    public static Color color(Theme theme, Verdict verdict) {
        return switch (verdict) {
            case HOLDS -> theme.good();
            case THIN -> theme.warn();
            case FALLS_SHORT -> theme.bad();
            case NOT_ESTABLISHED, NOT_CONVERGED -> theme.unknown();
        };
    }

    /** The mark as lines to stroke in a square of side 1 at the origin; empty for {@link Verdict#FALLS_SHORT}, which is filled. */
    public static Path2D outline(Verdict verdict) {
        Path2D path = new Path2D.Double();
        switch (verdict) {
            case HOLDS -> {
                path.moveTo(0.10, 0.55);
                path.lineTo(0.40, 0.85);
                path.lineTo(0.92, 0.15);
            }
            case THIN -> {
                path.moveTo(0.88, 0.12);
                path.lineTo(0.12, 0.12);
                path.lineTo(0.12, 0.88);
                path.lineTo(0.88, 0.88);
            }
            case FALLS_SHORT -> {
                // filled
            }
            case NOT_ESTABLISHED -> {
                path.moveTo(0.22, 0.30);
                path.curveTo(0.24, -0.05, 0.80, -0.02, 0.76, 0.32);
                path.curveTo(0.73, 0.50, 0.48, 0.48, 0.49, 0.70);
                path.moveTo(0.49, 0.84);
                path.lineTo(0.49, 0.98);
            }
            case NOT_CONVERGED -> {
                path.append(new Ellipse2D.Double(0.08, 0.08, 0.84, 0.84), false);
                path.moveTo(0.22, 0.78);
                path.lineTo(0.78, 0.22);
            }
        }
        return path;
    }

    /** The filled part in a square of side 1. */
    public static Shape solid(Verdict verdict) {
        return verdict == Verdict.FALLS_SHORT ? new Rectangle2D.Double(0.05, 0.28, 0.90, 0.44) : new Path2D.Double();
    }

    /** Draws the mark in a square. */
    static void draw(Figure.Builder b, Verdict verdict, double x, double y, double size) {
        var at = java.awt.geom.AffineTransform.getTranslateInstance(x, y);
        at.scale(size, size);
        b.fill(at.createTransformedShape(solid(verdict)), color(b.theme(), verdict));
        b.line(
                at.createTransformedShape(outline(verdict)),
                Theme.blend(color(b.theme(), verdict), b.theme().ink(), 0.25),
                2);
    }

    /** Draws the mark with its word right of it; returns the width used. */
    static double drawWithWord(Figure.Builder b, Verdict verdict, double x, double baseline, double size) {
        Font font = Lettering.font(Font.BOLD, size);
        draw(b, verdict, x, baseline - size * 0.8, size * 0.9);
        b.text(
                "verdict",
                verdict.word(),
                x + size * 1.3,
                baseline,
                font,
                b.theme().ink());
        return size * 1.3 + Lettering.width(font, verdict.word());
    }
}

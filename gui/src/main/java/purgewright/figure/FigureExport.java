package purgewright.figure;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import javax.imageio.ImageIO;
import javax.imageio.stream.ImageOutputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.apache.batik.dom.GenericDOMImplementation;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.DOMImplementation;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Writes a figure as a file. The same marks that the window paints, through other devices. */
public final class FigureExport {
    private static final String SVG = "http://www.w3.org/2000/svg";

    private FigureExport() {}

    /** Scalable vector graphics, UTF-8, text kept as text; title and description for screen readers. */
    public static void svg(Figure figure, OutputStream out) {
        svg(figure, false, out);
    }

    /** The same, with letters as outlines when asked: for a reader that does not have the letters. */
    public static void svg(Figure figure, boolean outlines, OutputStream out) {
        DOMImplementation dom = GenericDOMImplementation.getDOMImplementation();
        Document document = dom.createDocument(SVG, "svg", null);
        SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
        context.setComment(null);
        context.setPrecision(2);
        SVGGraphics2D g = new SVGGraphics2D(context, outlines);
        figure.paint(g);
        Element root = g.getRoot();
        root.setAttributeNS(null, "width", whole(figure.width()));
        root.setAttributeNS(null, "height", whole(figure.height()));
        root.setAttributeNS(null, "viewBox", "0 0 " + whole(figure.width()) + " " + whole(figure.height()));
        root.setAttributeNS(null, "role", "img");
        Element title = root.getOwnerDocument().createElementNS(SVG, "title");
        title.setTextContent(figure.caption());
        root.insertBefore(title, root.getFirstChild());
        try {
            Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
            g.stream(root, writer, true, false);
            writer.flush();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Portable network graphics at a scale (1 is one pixel per drawing unit). */
    public static void png(Figure figure, double scale, OutputStream out) {
        // In memory: a stream with a file behind it cannot be opened while the process is being stopped with a partial
        // answer.
        try (ImageOutputStream memory = new MemoryCacheImageOutputStream(out)) {
            ImageIO.write(image(figure, scale), "png", memory);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The figure as pixels. */
    public static BufferedImage image(Figure figure, double scale) {
        BufferedImage image = new BufferedImage(
                (int) Math.ceil(figure.width() * scale),
                (int) Math.ceil(figure.height() * scale),
                BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
        g.transform(AffineTransform.getScaleInstance(scale, scale));
        figure.paint(g);
        g.dispose();
        return image;
    }

    private static String whole(double number) {
        return Integer.toString((int) Math.ceil(number));
    }
}

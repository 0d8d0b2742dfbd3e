package org.sideport.chart;

import java.io.StringReader;
import java.io.StringWriter;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.transform.OutputKeys;
import javax.xml.transform.Transformer;
import javax.xml.transform.TransformerException;
import javax.xml.transform.TransformerFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.stream.StreamResult;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** Gives a drawing a name and a description that screen readers find (SVG 1.1, section 5.4; WAI-ARIA role img). */
final class SvgText {

    private static final String SVG = "http://www.w3.org/2000/svg";

    private SvgText() {}

    static String described(String svg, Chart chart) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            Document document = factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
            Element root = document.getDocumentElement();
            root.removeAttributeNS(XMLConstants.XMLNS_ATTRIBUTE_NS_URI, "jfreesvg");
            root.setAttribute("role", "img");
            root.setAttribute("viewBox", "0 0 " + root.getAttribute("width") + " " + root.getAttribute("height"));
            root.setAttribute("aria-labelledby", chart.id() + "-title " + chart.id() + "-desc");
            Element desc = text(document, "desc", chart.id() + "-desc", chart.sentence());
            root.insertBefore(desc, root.getFirstChild());
            root.insertBefore(text(document, "title", chart.id() + "-title", chart.title()), desc);
            TransformerFactory writers = TransformerFactory.newInstance();
            writers.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            Transformer writer = writers.newTransformer();
            writer.setOutputProperty(OutputKeys.ENCODING, "UTF-8");
            writer.setOutputProperty(OutputKeys.STANDALONE, "yes");
            StringWriter text = new StringWriter();
            writer.transform(new DOMSource(document), new StreamResult(text));
            return text.toString();
        } catch (ParserConfigurationException | SAXException | java.io.IOException | TransformerException e) {
            throw new IllegalStateException("the drawing of chart " + chart.id() + " is no XML", e);
        }
    }

    private static Element text(Document document, String name, String id, String words) {
        Element element = document.createElementNS(SVG, name);
        element.setAttribute("id", id);
        element.setTextContent(ChartRenderer.printable(words));
        return element;
    }
}

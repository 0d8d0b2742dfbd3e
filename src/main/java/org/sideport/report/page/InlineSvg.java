package org.sideport.report.page;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
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
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * A drawing that can stand within a page whose content policy forbids styles in attributes: they become attributes of
 * their own, which SVG knows for all of them (SVG 2, section 6.6, presentation attributes).
 */
final class InlineSvg {

    private InlineSvg() {}

    /** @param title its name, where the drawing has an empty one */
    static String of(String svg, String title) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            Document document = factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
            NodeList all = document.getElementsByTagNameNS("*", "*");
            for (int i = 0; i < all.getLength(); i++) {
                plain((Element) all.item(i));
            }
            Node name = document.getElementsByTagNameNS("*", "title").item(0);
            if (name != null && name.getTextContent().isEmpty()) {
                name.setTextContent(title);
            }
            TransformerFactory writers = TransformerFactory.newInstance();
            writers.setFeature(javax.xml.XMLConstants.FEATURE_SECURE_PROCESSING, true);
            Transformer writer = writers.newTransformer();
            writer.setOutputProperty(OutputKeys.OMIT_XML_DECLARATION, "yes");
            StringWriter text = new StringWriter();
            writer.transform(new DOMSource(document), new StreamResult(text));
            return text.toString();
        } catch (ParserConfigurationException | SAXException | IOException | TransformerException e) {
            throw new IllegalStateException("a drawing is no XML", e);
        }
    }

    private static void plain(Element element) {
        for (String part : element.getAttribute("style").split(";")) {
            int colon = part.indexOf(':');
            if (colon > 0) {
                element.setAttribute(
                        part.substring(0, colon).strip(),
                        part.substring(colon + 1).strip());
            }
        }
        element.removeAttribute("style");
    }
}

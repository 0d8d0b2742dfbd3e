package org.sideport.report.exchange;

import java.time.Instant;
import java.util.List;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricWriter;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A rubric as a package of 1EdTech's Competencies and Academic Standards Exchange (CASE 1.1, information model): its items as
 * CFItems under their domains, and a CFRubric with a criterion for each item and a level for each way to mark it. What CASE has
 * no field for goes into {@code extensions}. It carries the instrument, never anyone's marks. Identifiers depend on id and
 * version of the rubric only.
 */
public final class CfPackageWriter {

    static final String OWN = "sideport";

    private final Rubric rubric;
    private final JsonNode tree;
    private final String made;

    private CfPackageWriter(Rubric rubric, Instant made) {
        this.rubric = rubric;
        this.tree = StandardJson.MAPPER.readTree(RubricWriter.json(rubric));
        this.made = made.toString();
    }

    /** @param made the time that stands as the last change, since rubrics have none */
    public static String write(Rubric rubric, Instant made) {
        return StandardJson.pretty(new CfPackageWriter(rubric, made).cfPackage());
    }

    private String id(String... words) {
        return Digests.uuid("case", rubric.id(), rubric.version(), String.join("/", words));
    }

    private ObjectNode named(String... words) {
        String id = id(words);
        return StandardJson.object().put("identifier", id).put("uri", "urn:uuid:" + id);
    }

    /** A LinkURI: title, identifier, uri. */
    private ObjectNode link(String title, String... words) {
        ObjectNode link = StandardJson.object().put("title", title);
        link.setAll(named(words));
        return link;
    }

    private ObjectNode cfPackage() {
        ObjectNode root = StandardJson.object();
        ObjectNode document = named("document");
        document.put("title", rubric.title())
                .put("creator", "Sideport")
                .put("description", rubric.source())
                .put("version", rubric.version())
                .put("caseVersion", "1.1")
                .put("adoptionStatus", "Draft")
                .put("notes", rubric.guidance())
                .put("lastChangeDateTime", made);
        document.set("CFPackageURI", link(rubric.title(), "package"));
        root.set("CFDocument", document);
        ArrayNode items = root.putArray("CFItems");
        ArrayNode associations = root.putArray("CFAssociations");
        int number = 0;
        for (Rubric.Domain domain : rubric.domains()) {
            items.add(item("domain", domain.id(), domain.title(), "Domain", ""));
            associations.add(child(++number, domain.title(), "domain/" + domain.id(), rubric.title(), "document"));
        }
        for (Rubric.Item item : rubric.items()) {
            items.add(item("item", item.id(), item.title(), "Rubric item", item.guidance()));
            associations.add(child(
                    ++number, item.title(), "item/" + item.id(), title(item.domain()), "domain/" + item.domain()));
        }
        root.putObject("CFDefinitions");
        root.putArray("CFRubrics").add(cfRubric());
        return root;
    }

    private String title(String domain) {
        return rubric.domains().stream()
                .filter(d -> d.id().equals(domain))
                .map(Rubric.Domain::title)
                .findFirst()
                .orElse(domain);
    }

    private ObjectNode item(String kind, String id, String title, String type, String notes) {
        ObjectNode item = named(kind, id);
        item.put("fullStatement", title).put("humanCodingScheme", id).put("CFItemType", type);
        if (!notes.isEmpty()) {
            item.put("notes", notes);
        }
        item.set("CFDocumentURI", link(rubric.title(), "document"));
        return item.put("lastChangeDateTime", made);
    }

    private ObjectNode child(int number, String title, String of, String parentTitle, String parent) {
        ObjectNode association = named("association", of);
        association.put("associationType", "isChildOf").put("sequenceNumber", number);
        association.set("originNodeURI", link(title, of));
        association.set("destinationNodeURI", link(parentTitle, parent));
        association.set("CFDocumentURI", link(rubric.title(), "document"));
        return association.put("lastChangeDateTime", made);
    }

    private ObjectNode cfRubric() {
        ObjectNode node = named("rubric");
        node.put("title", rubric.title()).put("description", rubric.guidance()).put("lastChangeDateTime", made);
        ArrayNode criteria = node.putArray("CFRubricCriteria");
        for (int i = 0; i < rubric.items().size(); i++) {
            criteria.add(criterion(rubric.items().get(i), i));
        }
        ObjectNode own = (ObjectNode) tree.deepCopy();
        own.remove(List.of("items", "title", "guidance"));
        node.putObject("extensions").set(OWN, own);
        return node;
    }

    private ObjectNode criterion(Rubric.Item item, int index) {
        ObjectNode node = named("criterion", item.id());
        node.put("category", title(item.domain())).put("description", item.title());
        node.set("CFItemURI", link(item.title(), "item/" + item.id()));
        JsonNode own = tree.path("items").path(index);
        node.set("weight", own.path("weight"));
        node.put("position", index + 1).put("rubricId", id("rubric")).put("lastChangeDateTime", made);
        ArrayNode levels = node.putArray("CFRubricCriterionLevels");
        List<CfLevel> all = CfLevel.of(rubric, item);
        for (int i = 0; i < all.size(); i++) {
            CfLevel level = all.get(i);
            ObjectNode one = levels.addObject();
            one.setAll(named("level", item.id(), String.valueOf(i)));
            one.put("quality", level.quality())
                    .put("description", level.description())
                    .put("score", level.points())
                    .put("position", i + 1)
                    .put("rubricCriterionId", id("criterion", item.id()))
                    .put("lastChangeDateTime", made);
        }
        ObjectNode kept = (ObjectNode) own.deepCopy();
        kept.remove(List.of("title", "weight"));
        node.putObject("extensions").set(OWN, kept);
        return node;
    }
}

package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.DescriptorKind;

class DescriptorCheckTest {

    private static String procedure(String descriptors) {
        return "{\"id\": \"p\", \"version\": \"1.0.0\", \"title\": \"P\", \"source\": \"s\", \"phases\": [{\"id\": \"a\","
                + " \"name\": \"A\", \"short_name\": \"A\", \"definition\": \"d\"}], \"descriptors\": [" + descriptors
                + "]}";
    }

    @Test
    void aDescriptorIsReadWithItsKindLimitsAndScale() {
        Procedure read = ProcedureReader.read(
                procedure("{\"id\": \"g\", \"name\": \"G\", \"kind\": \"number\", \"minimum\": 0.1, \"maximum\": 6.9,"
                        + " \"step\": 0.1, \"scale\": \"S\", \"group\": \"Lens\"}, {\"id\": \"c\", \"name\": \"C\","
                        + " \"values\": [\"x\"]}, {\"id\": \"t\", \"name\": \"T\"}"),
                "p.json");
        Procedure.Descriptor number = read.descriptors().get(0);
        assertThat(number.kind()).isEqualTo(DescriptorKind.NUMBER);
        assertThat(number.minimum()).isEqualTo(new BigDecimal("0.1"));
        assertThat(number.maximum()).isEqualTo(new BigDecimal("6.9"));
        assertThat(number.scale()).isEqualTo("S");
        assertThat(read.descriptors().get(1).kind()).isEqualTo(DescriptorKind.CHOICE);
        assertThat(read.descriptors().get(2).kind()).isEqualTo(DescriptorKind.TEXT);
    }

    @Test
    void whatDoesNotBelongToItsKindIsAFault() {
        assertThat(ProcedureCheck.check(procedure("{\"id\": \"c\", \"name\": \"C\", \"kind\": \"several\"}"), "p.json"))
                .extracting(Finding::path)
                .containsExactly("/descriptors/0/kind");
        assertThat(ProcedureCheck.check(
                        procedure("{\"id\": \"c\", \"name\": \"C\", \"kind\": \"number\", \"values\": [\"1\"]}"),
                        "p.json"))
                .extracting(Finding::path)
                .containsExactly("/descriptors/0/values");
        assertThat(ProcedureCheck.check(
                        procedure("{\"id\": \"c\", \"name\": \"C\", \"kind\": \"computed\"}"), "p.json"))
                .hasSize(1);
        assertThat(ProcedureCheck.check(
                        procedure(
                                "{\"id\": \"a\", \"name\": \"A\", \"kind\": \"number\"}, {\"id\": \"c\", \"name\": \"C\","
                                        + " \"kind\": \"computed\", \"product_percent\": [\"a\", \"b\"]}"),
                        "p.json"))
                .singleElement()
                .satisfies(f -> assertThat(f.path()).isEqualTo("/descriptors/1/product_percent"));
    }
}

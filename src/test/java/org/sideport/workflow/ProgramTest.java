package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.xpath.XPathFactory;
import org.junit.jupiter.api.Test;

class ProgramTest {

    @Test
    void theProgramsVersionIsThatOfItsBuildFile() throws Exception {
        var pom = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(Path.of("pom.xml").toFile());
        String version = XPathFactory.newInstance().newXPath().evaluate("/project/version", pom);
        assertThat(version).isNotBlank();
        assertThat(Program.VERSION).isEqualTo(version);
    }
}

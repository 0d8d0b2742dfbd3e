package org.sideport.workflow.handout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.sideport.model.Progress;
import org.sideport.model.SeenTrack;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.handout.WriteFeedback.Wanted;

/**
 * The feedback page in a real browser, from the disk. Which picture is on the screen is read out of the picture itself: the
 * demo's recordings carry the number of each frame (demo-data/README.md).
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class FeedbackPageTest {

    /** Markup, quotes, the template's own syntax, line separators, what ends a script, direction marks. */
    private static final String HOSTILE =
            "</script><script>window.hacked=1</script><img src=x onerror=\"window.hacked=1\">'\"`--> {{ page.title }}"
                    + " {% if true %} & &amp; \u2028\u2029 \u202e ${1+1} javascript:window.hacked=1";

    @TempDir
    static Path dir;

    private Chromium chromium;
    private Path page;
    private Path hostile;

    @BeforeAll
    void pages() {
        chromium = new Chromium();
        page = written("plain", "The rhexis runs out; regrip sooner");
        hostile = written("hostile #1 & \"2\"", HOSTILE);
    }

    private Path written(String name, String text) {
        try (Workspace workspace = FreshWorkspace.in(dir.resolve("w" + name.length()))) {
            HandoutCase.into(workspace, text);
            HandoutCase.markOneself(workspace);
            Path out = dir.resolve(name + ".html");
            new WriteFeedback(workspace).write(Wanted.of(HandoutCase.CODE, "en"), out, Progress.NONE);
            return out;
        }
    }

    @AfterAll
    void quit() {
        if (chromium != null) {
            chromium.close();
        }
    }

    private double time() {
        return chromium.number("return document.getElementById('video').currentTime");
    }

    @Test
    void aCommentJumpsToItsFrameAndShowsItsDrawingOnThatFrameOnly() {
        chromium.open(page);
        WebElement comment = chromium.all(".comment").stream()
                .filter(c -> c.getText().contains("drawing"))
                .findFirst()
                .orElseThrow();
        comment.findElement(org.openqa.selenium.By.cssSelector(".jump")).click();
        assertThat(chromium.numberInThePicture()).isEqualTo(HandoutCase.DRAWN_FRAME);
        assertThat(time())
                .isBetween(
                        HandoutCase.DRAWN_FRAME / (double) HandoutCase.RATE,
                        (HandoutCase.DRAWN_FRAME + 1) / (double) HandoutCase.RATE);
        // the arrow of HandoutCase.ARROW goes from a quarter to the middle of the picture
        List<?> box = (List<?>) Objects.requireNonNull(chromium.js("""
            const v = document.getElementById("video").getBoundingClientRect();
            const p = document.querySelector("#drawing path.line.c-yellow");
            const at = p.getPointAtLength(0), m = p.getScreenCTM();
            const tip = p.getAttribute("d").split("M")[1].split("L")[1].split(" ").map(Number);
            return [(at.x * m.a + m.e - v.x) / v.width, (at.y * m.d + m.f - v.y) / v.height,
                    (tip[0] * m.a + m.e - v.x) / v.width, (tip[1] * m.d + m.f - v.y) / v.height];\
            """));
        double[] expected = {0.25, 0.25, 0.5, 0.5};
        for (int i = 0; i < expected.length; i++) {
            assertThat(((Number) box.get(i)).doubleValue()).isCloseTo(expected[i], within(0.005));
        }
        assertThat(chromium.one("#drawing text").getText()).startsWith("here The rhexis");
        assertThat(comment.findElement(org.openqa.selenium.By.cssSelector(".jump"))
                        .getAttribute("aria-current"))
                .isEqualTo("true");
        assertThat(chromium.one("#live").getAttribute("textContent")).contains("at 0:24.4");

        chromium.one("#frame-on").click();
        assertThat(chromium.numberInThePicture()).isEqualTo(HandoutCase.DRAWN_FRAME + 1);
        assertThat(chromium.all("#drawing *"))
                .as("the drawing belongs to its frame")
                .isEmpty();
        chromium.one("#frame-back").click();
        assertThat(chromium.numberInThePicture()).isEqualTo(HandoutCase.DRAWN_FRAME);
        assertThat(chromium.all("#drawing *")).isNotEmpty();
    }

    @Test
    void theDrawnMomentsPictureStandsUntilThePlayerHasFoundItsFrame() throws IOException {
        BufferedImage still =
                ImageIO.read(dir.resolve("plain-media").resolve("still-1.jpg").toFile());
        assertThat(HandoutCase.stamp(still)).isEqualTo(HandoutCase.DRAWN_FRAME);
        // the middle of HandoutCase.ARROW, in Okabe & Ito's yellow (#F0E442)
        int rgb = still.getRGB((int) (0.375 * still.getWidth()), (int) (0.375 * still.getHeight()));
        assertThat(rgb >> 16 & 255).as("red").isGreaterThan(200);
        assertThat(rgb >> 8 & 255).as("green").isGreaterThan(190);
        assertThat(rgb & 255).as("blue").isLessThan(140);

        chromium.open(page);
        WebElement jump = chromium.all(".comment").stream()
                .filter(c -> c.getText().contains("drawing"))
                .findFirst()
                .orElseThrow()
                .findElement(org.openqa.selenium.By.cssSelector(".jump"));
        assertThat(chromium.js(
                        "arguments[0].click(); const h = document.getElementById('hold');"
                                + " return !h.hidden && h.src.endsWith('still-1.jpg')",
                        jump))
                .isEqualTo(true);
        assertThat(chromium.numberInThePicture()).isEqualTo(HandoutCase.DRAWN_FRAME);
        assertThat(chromium.js("return document.getElementById('hold').hidden")).isEqualTo(true);
        assertThat(chromium.complaints()).isEmpty();
    }

    @Test
    void phasesAndEvidenceJumpToTheirFrames() {
        chromium.open(page);
        WebElement rhexis = chromium.all(".span").stream()
                .filter(s ->
                        Objects.requireNonNull(s.getAttribute("aria-label")).contains("0:20.8 to 0:28.4"))
                .findFirst()
                .orElseThrow();
        rhexis.click();
        // 20.8 s at 25 a second (demo-data/truth-phases.csv)
        assertThat(chromium.numberInThePicture()).isEqualTo(520);
        assertThat(rhexis.getAttribute("aria-current")).isEqualTo("true");
        chromium.one(".evidence .jump").click();
        assertThat(chromium.numberInThePicture()).isEqualTo(HandoutCase.EVIDENCE_FRAME);
        chromium.one(".events .jump").click();
        assertThat(chromium.numberInThePicture()).as("31.8 s").isEqualTo(795);
    }

    @Test
    void allCanBeDoneWithKeys() {
        chromium.open(page);
        WebElement first = chromium.driver().switchTo().activeElement();
        first.sendKeys(Keys.TAB);
        WebElement skip = chromium.driver().switchTo().activeElement();
        assertThat(skip.getAttribute("class")).isEqualTo("skip");
        assertThat(skip.getRect().getY()).as("seen while it has the focus").isGreaterThanOrEqualTo(0);
        skip.sendKeys(Keys.ENTER);
        chromium.driver().switchTo().activeElement().sendKeys(Keys.TAB);
        WebElement jump = chromium.driver().switchTo().activeElement();
        assertThat(jump.getAttribute("class"))
                .as("the first stop among the comments")
                .isEqualTo("jump");
        String outline = (String) chromium.js("return getComputedStyle(document.activeElement).outlineStyle");
        assertThat(outline).isEqualTo("solid");
        jump.sendKeys(Keys.SPACE);
        assertThat(chromium.numberInThePicture())
                .as("22 s, where the voice begins")
                .isEqualTo(550);
        WebElement picture = chromium.one("#picture");
        chromium.js("document.getElementById('picture').focus()");
        picture.sendKeys(Keys.ARROW_RIGHT);
        assertThat(chromium.numberInThePicture()).isEqualTo(551);
        picture.sendKeys(Keys.chord(Keys.SHIFT, Keys.ARROW_RIGHT));
        assertThat(chromium.numberInThePicture()).isEqualTo(676);
        picture.sendKeys(Keys.SPACE);
        chromium.until("it runs", () -> time() > 27.3);
        picture.sendKeys(Keys.SPACE);
        assertThat(chromium.js("return document.getElementById('video').paused"))
                .isEqualTo(true);
    }

    @Test
    void aSpokenCommentPlaysWithThePictureAsItWasShown() {
        chromium.open(page);
        chromium.one(".listen").click();
        String read = """
            const a = document.querySelector("audio"), v = document.getElementById("video");
            return {voice: a.currentTime, time: v.currentTime, paused: v.paused, rate: v.playbackRate,
                marks: document.querySelectorAll("#drawing ellipse.line").length, ended: a.ended,
                caption: document.getElementById("caption").textContent};\
            """;
        int standing = 0;
        int running = 0;
        int ringed = 0;
        int captioned = 0;
        while (true) {
            Map<?, ?> now = (Map<?, ?>) Objects.requireNonNull(chromium.js(read));
            if (Boolean.TRUE.equals(now.get("ended"))) {
                break;
            }
            double voice = value(now, "voice");
            // SeenTrack says what was seen; near a change the page may be a moment behind
            boolean settled =
                    List.of(0.0, 0.4, 1.0, 2.4, 3.0).stream().noneMatch(at -> voice >= at && voice < at + 0.35);
            if (!settled) {
                continue;
            }
            SeenTrack.Seen seen = HandoutCase.SEEN.seenAt(Math.round(voice * 1e6));
            if (seen.rate() == 0) {
                assertThat(now.get("paused")).as("at %s of the voice", voice).isEqualTo(true);
                assertThat(value(now, "time")).isCloseTo(seen.time().seconds(), within(1.0 / HandoutCase.RATE));
                standing++;
            } else {
                assertThat(value(now, "rate")).isEqualTo(0.5);
                assertThat(value(now, "time")).isCloseTo(seen.time().seconds(), within(0.3));
                running++;
            }
            assertThat((int) value(now, "marks"))
                    .as("at %s of the voice", voice)
                    .isEqualTo(seen.marks().size());
            ringed += seen.marks().size();
            captioned += "The rhexis runs out; regrip sooner".equals(now.get("caption")) ? 1 : 0;
        }
        assertThat(standing).isPositive();
        assertThat(running).isPositive();
        assertThat(ringed).isPositive();
        assertThat(captioned).isPositive();
        chromium.until(
                "the page is as before",
                () -> "Listen".equals(chromium.one(".listen").getText()));
        assertThat(chromium.numberInThePicture())
                .as("30 s, where the picture stood last")
                .isEqualTo(750);
    }

    private static double value(Map<?, ?> of, String key) {
        return ((Number) Objects.requireNonNull(of.get(key))).doubleValue();
    }

    @Test
    void nothingIsAskedForBeyondThePagesFolderAndThePolicyHolds() {
        chromium.open(page);
        chromium.one(".jump").click();
        chromium.settled();
        String folder = page.getParent().toUri().toString();
        assertThat(chromium.requests())
                .isNotEmpty()
                .allMatch(url -> url.startsWith(folder) || url.startsWith("data:"), "lies in the page's folder");
        assertThat(chromium.complaints()).isEmpty();

        chromium.js("""
            const s = document.createElement("script"); s.textContent = "window.hacked = 1"; document.body.append(s);
            const i = new Image(); i.src = "https://sideport.invalid/x.png"; document.body.append(i);
            fetch("https://sideport.invalid/y").catch(() => {});
            document.body.setAttribute("style", "color: red");\
            """);
        assertThat(chromium.js("return window.hacked === undefined")).isEqualTo(true);
        chromium.until(
                "refusals of all four",
                () -> refusals.addAndGet(chromium.complaints().size()) >= 4);
    }

    private final java.util.concurrent.atomic.AtomicInteger refusals = new java.util.concurrent.atomic.AtomicInteger();

    @Test
    void hostileWordsStayWords() {
        chromium.open(hostile);
        chromium.all(".jump").forEach(jump -> chromium.js("arguments[0].click()", jump));
        chromium.settled();
        assertThat(chromium.js("return window.hacked === undefined")).isEqualTo(true);
        assertThat(chromium.complaints()).isEmpty();
        assertThat(chromium.all("main img:not(.still):not(.hold), main script")).isEmpty();
        String words = (String) chromium.js("return document.querySelector('.comment .said').textContent");
        assertThat(words).isEqualTo(HOSTILE);
        assertThat((String) chromium.js("return document.querySelector('.overall').textContent"))
                .isEqualTo(HOSTILE);
        assertThat(chromium.all(".comment")).hasSize(3);
    }

    @Test
    void axeFindsNoSeriousFaultInLightAndDark() {
        chromium.open(page);
        assertThat(chromium.seriousFaults()).isEmpty();
        chromium.js("document.querySelectorAll('details').forEach(d => { d.open = true; })");
        chromium.driver()
                .executeCdpCommand(
                        "Emulation.setEmulatedMedia",
                        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", "dark"))));
        assertThat(chromium.seriousFaults()).isEmpty();
        chromium.driver().executeCdpCommand("Emulation.setEmulatedMedia", Map.of("features", List.of()));
    }

    @Test
    void thePageHoldsNoNameOfAFileOrFolder() throws IOException {
        String html = Files.readString(page);
        assertThat(html).doesNotContain("D-002.mp4", dir.toString(), "file:///", System.getProperty("user.name") + "/");
        assertThat(dir.resolve("plain-media"))
                .isDirectoryContaining("glob:**/recording.mp4")
                .isDirectoryContaining("glob:**/voice-1.ogg");
    }
}

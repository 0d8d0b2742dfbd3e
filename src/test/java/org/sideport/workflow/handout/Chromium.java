package org.sideport.workflow.handout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalInt;
import java.util.function.Supplier;
import java.util.logging.Level;
import javax.imageio.ImageIO;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.sideport.demo.FrameStamp;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The system's Chromium without a window, on a page that lies on the disk. */
final class Chromium implements AutoCloseable {

    private static final File BROWSER = new File("/usr/bin/chromium");
    private static final File DRIVER = new File("/usr/bin/chromedriver");

    private final ChromeDriver driver;

    Chromium() {
        if (!BROWSER.canExecute() || !DRIVER.canExecute()) {
            fail("the feedback page is tested in Debian's Chromium, which is not installed: "
                    + "apt-get install chromium chromium-driver (./sideport test does it)");
        }
        LoggingPreferences logs = new LoggingPreferences();
        logs.enable(LogType.BROWSER, Level.ALL);
        logs.enable(LogType.PERFORMANCE, Level.ALL);
        ChromeOptions options = new ChromeOptions();
        options.setBinary(BROWSER);
        options.addArguments(
                "--headless=new",
                "--no-sandbox",
                "--disable-dev-shm-usage",
                "--autoplay-policy=no-user-gesture-required",
                "--mute-audio",
                "--force-device-scale-factor=1",
                "--lang=en",
                "--force-prefers-reduced-motion");
        options.setCapability("goog:loggingPrefs", logs);
        driver = new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER)
                        .usingAnyFreePort()
                        .build(),
                options);
        driver.manage().timeouts().scriptTimeout(Duration.ofSeconds(30));
        driver.manage().window().setSize(new Dimension(1280, 1000));
    }

    ChromeDriver driver() {
        return driver;
    }

    void open(Path page) {
        logs(LogType.BROWSER);
        logs(LogType.PERFORMANCE);
        driver.get(page.toUri().toString());
        until("the recording is there", () -> Boolean.TRUE.equals(js("""
            const v = document.getElementById("video");
            return !v || v.readyState >= 2;\
            """)));
    }

    Object js(String script, Object... values) {
        return driver.executeScript(script, values);
    }

    double number(String script) {
        return ((Number) Objects.requireNonNull(js(script))).doubleValue();
    }

    WebElement one(String css) {
        return driver.findElement(By.cssSelector(css));
    }

    List<WebElement> all(String css) {
        return driver.findElements(By.cssSelector(css));
    }

    void until(String what, Supplier<Boolean> there) {
        long end = System.nanoTime() + Duration.ofSeconds(15).toNanos();
        while (!there.get()) {
            if (System.nanoTime() > end) {
                fail("not seen within 15 s: " + what);
            }
            try {
                Thread.sleep(20);
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
        }
    }

    /** Waits until the picture of the place asked for is painted. */
    void settled() {
        until(
                "the picture",
                () -> Boolean.TRUE.equals(
                        js("const v = document.getElementById('video'); return !v.seeking && v.readyState >= 2;")));
        driver.executeAsyncScript(
                "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done,"
                        + " 60)));");
    }

    /** The number that the demo's recordings carry in their pictures (demo-data/README.md), as painted now. */
    int numberInThePicture() {
        settled();
        byte[] shot = one("#video").getScreenshotAs(OutputType.BYTES);
        try {
            BufferedImage read = ImageIO.read(new ByteArrayInputStream(shot));
            BufferedImage asDrawn = new BufferedImage(640, 480, BufferedImage.TYPE_INT_ARGB);
            Graphics2D on = asDrawn.createGraphics();
            on.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            on.drawImage(read, 0, 0, 640, 480, null);
            on.dispose();
            OptionalInt number = FrameStamp.read(asDrawn.getRGB(0, 0, 640, 480, null, 0, 640), 640, 480);
            assertThat(number).as("a number in the picture").isPresent();
            return number.getAsInt();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private List<String> logs(String type) {
        List<String> lines = new ArrayList<>();
        for (LogEntry entry : driver.manage().logs().get(type)) {
            lines.add(entry.getMessage());
        }
        return lines;
    }

    /** What the browser complained of since the page was opened, or since asked last. */
    List<String> complaints() {
        return logs(LogType.BROWSER);
    }

    /** Addresses that were asked for since the page was opened, or since asked last. */
    List<String> requests() {
        List<String> asked = new ArrayList<>();
        for (String line : logs(LogType.PERFORMANCE)) {
            JsonNode message = JsonMapper.builder().build().readTree(line).path("message");
            if (message.path("method").asString().equals("Network.requestWillBeSent")) {
                asked.add(message.path("params").path("request").path("url").asString());
            }
        }
        return asked;
    }

    /** Serious and critical faults that axe-core finds, one a line. */
    List<String> seriousFaults() {
        try (InputStream in = Objects.requireNonNull(Chromium.class.getResourceAsStream("/axe.min.js"))) {
            driver.executeScript(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Object found = driver.executeAsyncScript("""
            const done = arguments[arguments.length - 1];
            axe.run(document, {resultTypes: ["violations"]}).then(
                r => done({checked: r.passes.length, faults: r.violations
                    .filter(v => v.impact === "serious" || v.impact === "critical")
                    .map(v => v.id + ": " + v.nodes.map(n => n.target.join(" ") + " " + n.failureSummary).join(" | "))}),
                e => done({checked: 0, faults: [String(e)]}));\
            """);
        Map<?, ?> result = (Map<?, ?>) Objects.requireNonNull(found);
        assertThat(((Number) Objects.requireNonNull(result.get("checked"))).intValue())
                .as("rules that axe could check")
                .isGreaterThan(15);
        List<String> faults = new ArrayList<>();
        ((List<?>) Objects.requireNonNull(result.get("faults"))).forEach(f -> faults.add(String.valueOf(f)));
        return faults;
    }

    @Override
    public void close() {
        driver.quit();
    }
}

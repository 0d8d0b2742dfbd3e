package org.sideport.store;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.encoder.PatternLayoutEncoder;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.Appender;
import ch.qos.logback.core.FileAppender;
import java.nio.file.Path;
import org.slf4j.LoggerFactory;

/** The log file of a workspace. It holds codes and faults, never marks or comments. */
final class WorkspaceLog {

    private static final String FILE = "sideport.log";
    private static final String NAME = "workspace";

    private WorkspaceLog() {}

    static void writeTo(Path dir) {
        if (!(LoggerFactory.getILoggerFactory() instanceof LoggerContext context)) {
            return;
        }
        stop();
        PatternLayoutEncoder encoder = new PatternLayoutEncoder();
        encoder.setContext(context);
        encoder.setPattern("%d{yyyy-MM-dd'T'HH:mm:ss.SSSXXX} %-5level [%thread] %logger{20} - %msg%n");
        encoder.start();
        FileAppender<ILoggingEvent> appender = new FileAppender<>();
        appender.setContext(context);
        appender.setName(NAME);
        appender.setFile(dir.resolve(FILE).toString());
        appender.setEncoder(encoder);
        appender.start();
        context.getLogger(Logger.ROOT_LOGGER_NAME).addAppender(appender);
    }

    static void stop() {
        if (LoggerFactory.getILoggerFactory() instanceof LoggerContext context) {
            Logger root = context.getLogger(Logger.ROOT_LOGGER_NAME);
            Appender<ILoggingEvent> appender = root.getAppender(NAME);
            if (appender != null) {
                root.detachAppender(appender);
                // closes the file, which could otherwise not be moved or deleted on Windows
                appender.stop();
            }
        }
    }
}

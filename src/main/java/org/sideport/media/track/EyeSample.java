package org.sideport.media.track;

/**
 * The eye at one moment.
 *
 * @param timeUs of the moment on the recording's timeline, microseconds
 */
public record EyeSample(long timeUs, EyeView view) {}

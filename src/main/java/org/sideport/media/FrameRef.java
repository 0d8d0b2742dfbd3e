package org.sideport.media;

import org.sideport.model.MediaTime;

/**
 * One frame of a recording.
 *
 * @param segment position of its file in the recording, from 0
 * @param index its number within the file, from 0
 * @param number its number within the recording, from 0
 * @param start when it comes on the screen
 * @param end when it leaves the screen
 */
public record FrameRef(int segment, int index, long number, MediaTime start, MediaTime end) {}

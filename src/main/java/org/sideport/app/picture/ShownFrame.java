package org.sideport.app.picture;

import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;

/** A picture together with the frame that it is: the two never part. */
public record ShownFrame(FrameRef frame, FramePicture picture) {}

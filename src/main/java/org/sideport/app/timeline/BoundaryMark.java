package org.sideport.app.timeline;

/**
 * A boundary as it is drawn on its lane.
 *
 * @param confirmed somebody has looked at its very frame: a solid bar with a head; else a rough one, which is dotted
 */
public record BoundaryMark(String laneId, long atUs, boolean confirmed) {}

package org.sideport.model;

/**
 * How many cases there are in all, and how far they have come.
 *
 * @param tagged with a tagging of anybody's
 * @param signed with a signed rating of an assessor's
 */
public record CaseCounts(long cases, long tagged, long signed) {}

package org.sideport.app.comment;

import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemLink;

/**
 * An item that a comment may be about.
 *
 * @param link {@code null} for no item in particular
 */
public record ItemChoice(@Nullable ItemLink link, String title) {}

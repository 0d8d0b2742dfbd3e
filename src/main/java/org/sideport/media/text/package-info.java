/** Finds what may be writing in the picture, such as a name or a date that a recorder burnt in. Reads no letters. */
@org.jspecify.annotations.NullMarked
package org.sideport.media.text;

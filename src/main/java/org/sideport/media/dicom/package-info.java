/** Videos inside DICOM objects (PS3.5, PS3.10): where their bytes lie; what the header says of a patient stays there. */
@org.jspecify.annotations.NullMarked
package org.sideport.media.dicom;

package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class VlcDiscoveryTest {

    @Test
    void tellsAWrongArchitectureFromOtherFaults() {
        // what the loaders of Linux, macOS and Windows say
        assertThat(VlcDiscovery.isArchitecture("/usr/lib/libvlc.so.5: wrong ELF class: ELFCLASS32"))
                .isTrue();
        assertThat(VlcDiscovery.isArchitecture(
                        "mach-o file, but is an incompatible architecture (have 'x86_64', need 'arm64')"))
                .isTrue();
        assertThat(VlcDiscovery.isArchitecture("%1 is not a valid Win32 application."))
                .isTrue();
        assertThat(VlcDiscovery.isArchitecture("libvlccore.so.9: cannot open shared object file: No such file"))
                .isFalse();
    }
}

package org.sideport.cli.bench;

import org.sideport.app.bench.BareWindow;

/** A program of its own that shows a bare window and says so. */
final class BareProgram {

    private BareProgram() {}

    public static void main(String[] args) throws InterruptedException {
        BareWindow.run(() -> System.out.println(WindowReport.SHOWN));
        System.exit(0);
    }
}

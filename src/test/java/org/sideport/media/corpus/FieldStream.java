package org.sideport.media.corpus;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import org.sideport.demo.FrameStamp;

/**
 * A bare H.264 stream whose frames are coded as two field pictures each, as interlaced recorders write them and the
 * encoder at hand cannot. All macroblocks are plain samples (I_PCM). Syntax: ITU-T H.264, 7.3.2.1.1, 7.3.2.2, 7.3.3, E.1.1.
 */
final class FieldStream {

    static final int WIDTH = 160;
    static final int HEIGHT = 128;

    private final ByteArrayOutputStream stream = new ByteArrayOutputStream();
    private Bits bits = new Bits();

    /** {@code count} frames, 25 a second, stamped from 0. */
    static byte[] of(int count) {
        FieldStream fields = new FieldStream();
        fields.sequence();
        fields.pictures();
        for (int n = 0; n < count; n++) {
            int[] argb = new int[WIDTH * HEIGHT];
            Arrays.fill(argb, 0xFF808080);
            FrameStamp.write(argb, WIDTH, HEIGHT, n);
            fields.field(argb, n, 0);
            fields.field(argb, n, 1);
        }
        return fields.stream.toByteArray();
    }

    private void sequence() {
        bits.u(8, 77).u(8, 0).u(8, 30); // Main profile, level 3
        bits.ue(0).ue(4).ue(0).ue(4); // id; 8 bits of frame_num; order count type 0 of 8 bits
        bits.ue(1).u(1, 0).ue(WIDTH / 16 - 1).ue(HEIGHT / 32 - 1);
        bits.u(1, 0).u(1, 0).u(1, 1).u(1, 0); // fields allowed, not adaptive, direct_8x8, no cropping
        bits.u(1, 1).u(1, 0).u(1, 0).u(1, 0).u(1, 0); // VUI without shape, overscan, signal type, chroma place
        bits.u(1, 1).u(16, 0).u(16, 1).u(16, 0).u(16, 50).u(1, 1); // 50 fields a second
        bits.u(1, 0).u(1, 0).u(1, 0); // no HRD, no pic_struct
        bits.u(1, 1).u(1, 1).ue(0).ue(0).ue(0).ue(0).ue(0).ue(1); // no reordering
        unit(0x67);
    }

    private void pictures() {
        bits.ue(0).ue(0).u(1, 0).u(1, 0).ue(0).ue(0).ue(0).u(1, 0).u(2, 0);
        bits.ue(0).ue(0).ue(0).u(1, 1).u(1, 0).u(1, 0);
        unit(0x68);
    }

    private void field(int[] argb, int frame, int bottom) {
        bits.ue(0).ue(7).ue(0).u(8, 0).u(1, 1).u(1, bottom); // an I slice of a field
        if (bottom == 0) {
            bits.ue(frame % 2); // idr_pic_id
        }
        bits.u(8, bottom);
        bits.u(1, 0);
        if (bottom == 0) {
            bits.u(1, 0);
        }
        bits.ue(0).ue(1);
        for (int mbY = 0; mbY < HEIGHT / 32; mbY++) {
            for (int mbX = 0; mbX < WIDTH / 16; mbX++) {
                bits.ue(25).align();
                for (int y = 0; y < 16; y++) {
                    for (int x = 0; x < 16; x++) {
                        int row = 2 * (mbY * 16 + y) + bottom;
                        bits.u(8, argb[row * WIDTH + mbX * 16 + x] & 0xFF);
                    }
                }
                for (int i = 0; i < 128; i++) {
                    bits.u(8, 128);
                }
            }
        }
        unit(bottom == 0 ? 0x65 : 0x61);
    }

    /** Start code, header, and the bits with what keeps start codes out of them (7.4.1.1). */
    private void unit(int header) {
        bits.u(1, 1).align();
        stream.writeBytes(new byte[] {0, 0, 0, 1, (byte) header});
        int zeros = 0;
        for (byte b : bits.bytes.toByteArray()) {
            if (zeros == 2 && (b & 0xFF) <= 3) {
                stream.write(3);
                zeros = 0;
            }
            stream.write(b);
            zeros = b == 0 ? zeros + 1 : 0;
        }
        bits = new Bits();
    }

    private static final class Bits {

        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private int current;
        private int filled;

        Bits u(int count, int value) {
            for (int i = count - 1; i >= 0; i--) {
                current = current << 1 | value >> i & 1;
                if (++filled == 8) {
                    bytes.write(current);
                    current = 0;
                    filled = 0;
                }
            }
            return this;
        }

        /** Exponential Golomb code (9.1); 0 is also the code of a signed 0. */
        Bits ue(int value) {
            int length = 32 - Integer.numberOfLeadingZeros(value + 1);
            return u(length - 1, 0).u(length, value + 1);
        }

        Bits align() {
            while (filled != 0) {
                u(1, 0);
            }
            return this;
        }
    }
}

package org.sideport.app.settings;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.input.KeyCode;
import org.sideport.app.Settings;

/**
 * The keys that a foot pedal of three sends: left, middle, right. Pedals send what they are set to; keys that no keyboard
 * has are where one begins.
 */
public record PedalKeys(List<KeyCode> keys) {

    public static final int PEDALS = 3;

    private static final String SETTING = "keys.pedal.";
    private static final List<KeyCode> USUAL = List.of(KeyCode.F13, KeyCode.F14, KeyCode.F15);

    public PedalKeys {
        keys = List.copyOf(keys);
        if (keys.size() != PEDALS) {
            throw new IllegalArgumentException("a key for each of three pedals: " + keys);
        }
    }

    public static PedalKeys of(Settings settings) {
        List<KeyCode> keys = new ArrayList<>();
        for (int i = 0; i < PEDALS; i++) {
            String name = settings.get(SETTING + i, USUAL.get(i).name());
            KeyCode key = USUAL.get(i);
            for (KeyCode code : KeyCode.values()) {
                key = code.name().equals(name) ? code : key;
            }
            keys.add(key);
        }
        return new PedalKeys(keys);
    }

    public static void put(Settings settings, int pedal, KeyCode key) {
        settings.put(SETTING + pedal, key.name());
    }

    public KeyCode key(int pedal) {
        return keys.get(pedal);
    }
}

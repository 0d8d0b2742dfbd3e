package org.sideport.app.frame;

import java.util.EnumSet;
import java.util.Set;
import javafx.scene.control.CheckBox;
import javafx.scene.layout.VBox;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.settings.ChosenRoles;
import org.sideport.model.Role;

/** The roles to tick; several are possible. */
final class RoleChoice extends VBox {

    RoleChoice(Settings settings, Texts texts, Runnable changed) {
        super(Ui.STEP);
        Set<Role> chosen = ChosenRoles.chosen(settings);
        for (Role role : Role.values()) {
            CheckBox box = new CheckBox(texts.get("role." + role));
            box.setId("role-" + role);
            box.setSelected(chosen.contains(role));
            box.setDisable(ChosenRoles.areFixed(settings));
            box.setOnAction(event -> {
                Set<Role> now = EnumSet.noneOf(Role.class);
                now.addAll(ChosenRoles.chosen(settings));
                if (box.isSelected()) {
                    now.add(role);
                } else {
                    now.remove(role);
                }
                ChosenRoles.choose(settings, now);
                changed.run();
            });
            getChildren().add(box);
        }
    }
}

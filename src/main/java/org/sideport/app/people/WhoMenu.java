package org.sideport.app.people;

import java.util.stream.Collectors;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Tooltip;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.model.Caller;

/** Says who is signed in, and offers to change the password, cover the screen, or sign out. */
public final class WhoMenu extends MenuButton {

    public WhoMenu(Caller.Person me, Texts texts, Runnable password, Runnable cover, Runnable signOut) {
        super(me.code(), new FontIcon(Feather.USER));
        setId("who");
        getStyleClass().add("flat");
        setMinWidth(USE_PREF_SIZE);
        String roles = me.roles().stream()
                .sorted()
                .map(role -> texts.get("person.role." + role))
                .collect(Collectors.joining(", "));
        String who = texts.get("who.is", me.code(), roles);
        setTooltip(new Tooltip(who));
        setAccessibleText(who);
        MenuItem name = new MenuItem(who);
        name.setId("who-is");
        name.setDisable(true);
        getItems()
                .setAll(
                        name,
                        new SeparatorMenuItem(),
                        item("who-password", texts.get("who.password"), password),
                        item("who-cover", texts.get("who.cover"), cover),
                        item("who-out", texts.get("who.out"), signOut));
    }

    private static MenuItem item(String id, String text, Runnable action) {
        MenuItem item = new MenuItem(text);
        item.setId(id);
        item.setOnAction(event -> action.run());
        return item;
    }
}

"use strict";
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const words = data.words;
  const live = document.getElementById("live");
  const video = document.getElementById("video");
  const all = (selector) => Array.from(document.querySelectorAll(selector));
  const byId = (id) => document.getElementById(id);
  const HALF = video ? data.frame_s / 2 : 0;
  const SVG = "http://www.w3.org/2000/svg";
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  let spoken = null;

  const clock = (s) => {
    const tenths = Math.floor(s * 10 + 1e-6);
    const h = Math.floor(tenths / 36000), m = Math.floor(tenths / 600) % 60, sec = Math.floor(tenths / 10) % 60;
    const two = (n) => String(n).padStart(2, "0");
    return (h > 0 ? h + ":" + two(m) : m) + ":" + two(sec) + "." + (tenths % 10);
  };

  // the drawing of a moment, in pixels of the picture, from shares of it
  const shape = (mark, w, h, kind) => {
    const at = mark.points.map((p) => [p[0] * w, p[1] * h]);
    const stroke = w / 200;
    let made;
    if (mark.kind === "ellipse") {
      made = document.createElementNS(SVG, "ellipse");
      made.setAttribute("cx", (at[0][0] + at[1][0]) / 2);
      made.setAttribute("cy", (at[0][1] + at[1][1]) / 2);
      made.setAttribute("rx", Math.abs(at[0][0] - at[1][0]) / 2);
      made.setAttribute("ry", Math.abs(at[0][1] - at[1][1]) / 2);
    } else if (mark.kind === "words") {
      made = document.createElementNS(SVG, "text");
      made.setAttribute("x", at[0][0]);
      made.setAttribute("y", at[0][1]);
      made.setAttribute("font-size", h / 20);
      made.setAttribute("stroke-width", h / 160);
      made.setAttribute("class", "words c-" + mark.colour);
      made.textContent = mark.words;
      return made;
    } else {
      let path = "M" + at.map((p) => p[0] + " " + p[1]).join("L");
      if (mark.kind === "arrow") {
        const [a, b] = at;
        const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
        const long = Math.min(w / 25, Math.hypot(b[0] - a[0], b[1] - a[1]) / 2);
        for (const turn of [2.6, -2.6]) {
          path += "M" + b[0] + " " + b[1] + "L" + (b[0] + long * Math.cos(angle + turn)) + " "
              + (b[1] + long * Math.sin(angle + turn));
        }
      }
      made = document.createElementNS(SVG, "path");
      made.setAttribute("d", path);
    }
    made.setAttribute("stroke-width", kind === "halo" ? stroke * 2 : stroke);
    made.setAttribute("class", kind === "halo" ? "halo" : "line c-" + mark.colour);
    made.setAttribute("data-kind", mark.kind);
    return made;
  };

  let drawn = "";
  const draw = (marks) => {
    const wanted = JSON.stringify(marks);
    const on = byId("drawing");
    if (!on || wanted === drawn) return;
    drawn = wanted;
    const w = video.videoWidth || 640, h = video.videoHeight || 360;
    on.setAttribute("viewBox", "0 0 " + w + " " + h);
    on.replaceChildren();
    for (const mark of marks) {
      if (mark.kind !== "words") on.append(shape(mark, w, h, "halo"));
      on.append(shape(mark, w, h, "line"));
    }
  };

  const marksNow = () => {
    const t = video.currentTime + 1e-4;
    return data.comments.filter((c) => c.marks.length && t >= c.from && t < c.until).flatMap((c) => c.marks);
  };

  // a moment's own picture stands until the player has found its frame
  const hold = byId("hold");

  const show = () => {
    if (!video.seeking) hold.hidden = true;
    const t = video.currentTime;
    const share = data.length_s > 0 ? Math.min(1, t / data.length_s) : 0;
    const seek = byId("seek");
    seek.value = t;
    seek.setAttribute("aria-valuetext", clock(t));
    byId("now").textContent = clock(t);
    byId("head").style.left = 100 * share + "%";
    byId("play").textContent = video.paused || spoken ? words.play : words.pause;
    all(".span").forEach((button, i) => {
      const span = data.spans[i];
      if (t + HALF / 2 >= span.start && t + HALF / 2 < span.end) button.setAttribute("aria-current", "true");
      else button.removeAttribute("aria-current");
    });
    all(".comment").forEach((item, i) => {
      const c = data.comments[i];
      const now = spoken ? spoken.index === i : t + 1e-4 >= c.from && t + 1e-4 < Math.max(c.to, c.until);
      item.classList.toggle("now", now);
      const jump = item.querySelector(".jump");
      if (now) jump.setAttribute("aria-current", "true");
      else jump.removeAttribute("aria-current");
    });
    if (!spoken) draw(marksNow());
  };

  const stopSpoken = () => {
    if (!spoken) return;
    const was = spoken;
    spoken = null;
    was.audio.pause();
    was.button.textContent = words.listen;
    was.button.setAttribute("aria-pressed", "false");
    if (video) {
      video.pause();
      video.muted = was.muted;
      video.playbackRate = Number(byId("rate").value);
      byId("caption").textContent = "";
      show();
    }
  };

  const go = (s) => {
    stopSpoken();
    hold.hidden = true;
    video.pause();
    video.currentTime = Math.max(0, Math.min(s, data.length_s - HALF));
  };

  // what was on the screen at a moment of the voice, as SeenTrack tells it
  const seenAt = (voice, t) => {
    let piece = voice.pieces[0];
    for (const one of voice.pieces) if (one.v <= t) piece = one;
    return {
      time: piece.rate === 0 ? piece.at : piece.t + piece.rate * (t - piece.v),
      rate: piece.rate,
      marks: voice.marks.filter((m) => m.on <= t && (m.off === null || t < m.off)).map((m) => m.mark),
    };
  };

  const follow = () => {
    if (!spoken) return;
    const voice = data.comments[spoken.index].voice;
    const t = spoken.audio.currentTime;
    if (video) {
      const seen = seenAt(voice, t);
      if (seen.rate === 0) {
        if (!video.paused) video.pause();
        if (!video.seeking && Math.abs(video.currentTime - seen.time) > HALF / 2) video.currentTime = seen.time;
      } else {
        const rate = Math.max(0.0625, Math.min(16, seen.rate));
        if (video.playbackRate !== rate) video.playbackRate = rate;
        if (video.paused) {
          video.currentTime = seen.time;
          video.play().catch(() => {});
        } else if (!video.seeking && Math.abs(video.currentTime - seen.time) > 0.15 + 0.1 * rate) {
          video.currentTime = seen.time;
        }
      }
      draw(seen.marks);
      byId("caption").textContent =
          voice.captions.filter((c) => c.from <= t && t < c.to).map((c) => c.text).join("\n");
      show();
    }
    requestAnimationFrame(follow);
  };

  const listen = (button, index) => {
    if (spoken && spoken.index === index) {
      stopSpoken();
      return;
    }
    stopSpoken();
    const audio = byId("voice-" + index);
    spoken = {audio, index, button, muted: video ? video.muted : false};
    if (video) video.muted = true;
    audio.currentTime = 0;
    button.textContent = words.stop;
    button.setAttribute("aria-pressed", "true");
    live.textContent = data.comments[index].said;
    audio.play().then(() => requestAnimationFrame(follow)).catch(stopSpoken);
  };

  all(".listen").forEach((button) => {
    const index = Number(button.dataset.voice);
    button.addEventListener("click", () => listen(button, index));
    const sound = byId("voice-" + index);
    const silent = () => { byId("voice-trouble").hidden = false; };
    sound.addEventListener("ended", stopSpoken);
    sound.addEventListener("error", silent);
    if (sound.error) silent();
  });
  addEventListener("beforeprint", () => all("details").forEach((d) => { d.open = true; }));
  if (!video) return;

  const place = (element, from, to) => {
    element.style.left = (100 * from) / data.length_s + "%";
    if (to !== undefined) element.style.width = (100 * (to - from)) / data.length_s + "%";
  };
  byId("seek").max = data.length_s;
  // a name is shown whole or not at all; its label tells it in any case
  const names = all(".span").map((button) => button.textContent);
  const fitNames = () => all(".span").forEach((button, i) => {
    button.textContent = names[i];
    if (button.scrollWidth > button.clientWidth) button.textContent = "";
  });
  all(".span").forEach((button, i) => {
    const span = data.spans[i];
    place(button, span.start, span.end);
    button.addEventListener("click", () => {
      go(span.at);
      live.textContent = button.getAttribute("aria-label");
    });
  });
  data.comments.forEach((comment) => {
    const pin = document.createElement("span");
    pin.className = "pin";
    place(pin, comment.from);
    pin.addEventListener("click", () => go(comment.at));
    byId("pins").append(pin);
  });
  all(".jump").forEach((button) => button.addEventListener("click", () => {
    go(Number(button.dataset.at));
    const item = button.closest(".comment");
    const moment = item && item.querySelector(".still");
    if (moment && video.seeking) {
      hold.src = moment.src;
      hold.hidden = false;
    }
    live.textContent = item ? data.comments[Number(item.dataset.comment)].said : button.getAttribute("aria-label");
    if (!item) byId("player").scrollIntoView({block: "start", behavior: still.matches ? "auto" : "smooth"});
  }));

  const toggle = () => {
    if (spoken) {
      stopSpoken();
      return;
    }
    if (video.paused) video.play().catch(() => {});
    else video.pause();
  };
  byId("play").addEventListener("click", toggle);
  byId("back").addEventListener("click", () => go(video.currentTime - 5));
  byId("on").addEventListener("click", () => go(video.currentTime + 5));
  byId("frame-back").addEventListener("click", () => go(video.currentTime - 2 * HALF));
  byId("frame-on").addEventListener("click", () => go(video.currentTime + 2 * HALF));
  byId("rate").addEventListener("change", () => { if (!spoken) video.playbackRate = Number(byId("rate").value); });
  byId("seek").addEventListener("input", () => {
    const wanted = Number(byId("seek").value);
    stopSpoken();
    video.currentTime = wanted;
  });
  const mute = byId("mute");
  if (mute) {
    mute.addEventListener("click", () => {
      video.muted = !video.muted;
      mute.setAttribute("aria-pressed", String(video.muted));
    });
  }
  const full = byId("full");
  full.hidden = !document.fullscreenEnabled;
  full.addEventListener("click", () => {
    if (document.fullscreenElement) document.exitFullscreen();
    else byId("player").requestFullscreen().catch(() => {});
  });
  byId("player").addEventListener("keydown", (event) => {
    const on = event.target.tagName;
    if (event.ctrlKey || event.altKey || event.metaKey || on === "INPUT" || on === "SELECT") return;
    const step = event.shiftKey ? 5 : 2 * HALF;
    if (event.key === " " && on !== "BUTTON") toggle();
    else if (event.key === "ArrowLeft") go(video.currentTime - step);
    else if (event.key === "ArrowRight") go(video.currentTime + step);
    else return;
    event.preventDefault();
  });
  byId("picture").tabIndex = 0;
  byId("picture").setAttribute("role", "group");
  byId("picture").setAttribute("aria-label", words.recording);
  byId("picture").addEventListener("click", toggle);

  new ResizeObserver(fitNames).observe(byId("spans"));
  const fit = () => {
    if (!video.videoWidth) return;
    const picture = byId("picture");
    picture.style.aspectRatio = video.videoWidth + " / " + video.videoHeight;
    picture.style.maxWidth = "min(100%, calc(72vh * " + video.videoWidth / video.videoHeight + "))";
    drawn = "";
    show();
  };
  video.addEventListener("loadedmetadata", fit);
  video.addEventListener("error", () => { byId("trouble").hidden = false; });
  if (video.error) byId("trouble").hidden = false;
  fit();
  const loop = () => {
    if (!video.paused && !spoken) {
      show();
      requestAnimationFrame(loop);
    }
  };
  video.addEventListener("play", () => { show(); requestAnimationFrame(loop); });
  for (const what of ["pause", "seeked", "timeupdate"]) video.addEventListener(what, show);
  show();
})();

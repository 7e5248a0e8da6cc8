// The page at the mill: the keypad, what waits for the network, and what other screens enter.
// An entry gets its id here, before it is sent for the first time, and waits in this device's
// store until the server says that it is on the disk. Sent twice, it is entered once.
"use strict";
(() => {
  const main = document.getElementById("mill"), news = document.getElementById("news");
  const job = main.dataset.job, address = "/" + job.split("/").map(encodeURIComponent).join("/");
  const store = {
    get(key, otherwise) { try { return JSON.parse(localStorage.getItem(key)) ?? otherwise; } catch { return otherwise; } },
    set(key, value) { localStorage.setItem(key, JSON.stringify(value)); },
    drop(key) { localStorage.removeItem(key); },
  };
  const waitsKey = "waits " + job, atKey = "at " + job;
  const make = (tag, text, more) => Object.assign(document.createElement(tag), { textContent: text }, more);

  // ---- what is said at the top ----
  const say = (lines, down, ...buttons) => {
    news.className = down ? "down" : "";
    news.replaceChildren(...lines.map(l => make("p", l)), ...buttons);
  };
  const button = (text, act) => make("button", text, { type: "button", onclick: act });

  // ---- sending ----
  let sending = false, asked = false, leaving = false, timer = 0; // leaving: the next page is asked for
  const change = entry => {
    store.set(waitsKey, store.get(waitsKey, []).filter(e => e.id !== entry.id));
    asked = false;
    say([], false);
    send();
  };
  const send = async () => {
    const entry = store.get(waitsKey, [])[0];
    if (!entry || sending || asked) return;
    sending = true;
    clearTimeout(timer);
    let answer = null, code = 0;
    try {
      const r = await fetch("/enter" + address, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(entry), signal: AbortSignal.timeout(10000) });
      code = r.status;
      answer = await r.json();
    } catch { answer = null; }
    sending = false;
    if (answer && answer.kept) {
      store.set(waitsKey, store.get(waitsKey, []).filter(e => e.id !== entry.id));
      store.drop(draftKey(entry.station, entry.pass));
      sessionStorage.setItem("kept", "Kept: pass " + entry.pass + ", " + entry.sizes.map(s => s.split("=")[1]).join(", ") + " in the " + entry.station + ".");
      leaving = true; // else what comes back in look() loads this page again instead
      location.replace("/mill" + address + "?after=" + encodeURIComponent(entry.station));
    } else if (answer && answer.asks) {
      asked = true;
      say(["Not kept yet."].concat(answer.asks), true,
        button("It is right: keep it", () => {
          store.set(waitsKey, store.get(waitsKey, []).map(e => e.id === entry.id ? { ...e, sure: true } : e));
          asked = false;
          say(["Sending …"], false);
          send();
        }), button("Change it", () => change(entry)));
    } else if (code >= 400 && code < 500) {
      asked = true;
      say(["Not kept."].concat(answer && answer.wrong || ["The server takes no entry from this device (" + code + ")."]), true, button("Change it", () => change(entry)));
    } else {
      say(["Not kept yet: the server does not answer. The reading stays on this device and is sent when the network is back. Go on from the paper card."], true);
      timer = setTimeout(send, 1500);
    }
  };

  // ---- what other screens enter ----
  let missed = 0, down = false;
  const look = async () => {
    try {
      const r = await fetch("/stands" + address, { signal: AbortSignal.timeout(5000) });
      if (!r.ok) throw 0;
      const mark = await r.text();
      if (leaving) return;
      missed = 0;
      if (down) { down = false; say([], false); send(); }
      if (mark !== main.dataset.mark && !sending && store.get(waitsKey, []).length === 0) { location.reload(); return; }
    } catch {
      if (++missed === 2 && !asked && store.get(waitsKey, []).length === 0) {
        down = true;
        say(["No network. Go on from the paper card. What you enter stays on this device until it can be sent."], true);
      } else if (missed >= 2) down = true;
    }
    setTimeout(look, 600);
  };

  // ---- where this device was ----
  const was = store.get(atKey, null);
  if (location.search === "" && was && was.mark === main.dataset.mark && was.search) { location.replace(location.pathname + was.search); return; }
  if (location.search.includes("at=")) store.set(atKey, { mark: main.dataset.mark, search: location.search });

  // ---- the form of a stop ----
  const draftKey = (station, pass) => "typed " + job + " " + station + " " + pass;
  const form = document.getElementById("enter"), of = document.getElementById("measure");
  if (form) {
    form.hidden = false;
    const { station, pass, unit, low, high } = of.dataset;
    const key = draftKey(station, pass), $ = id => document.getElementById(id);
    const draft = store.get(key, { typed: "", readings: [] });
    const by = $("by"), size = $("size"), keep = $("keep");
    by.value = store.get("by", "");
    const picked = name => form.querySelector(`input[name=${name}]:checked`);
    const number = text => /^[0-9]+([.][0-9]+)?$|^[.][0-9]+$/.test(text) ? Number(text) : NaN;
    const outside = d => d < Number(low) || d > Number(high);

    const draw = () => {
      size.textContent = draft.typed || "0";
      const d = number(draft.typed), a = Number(low), z = Number(high), bar = $("bar");
      const x = 120 + 120 * (d - a) / Math.max(z - a, 1e-9), there = Number.isFinite(d) && d > 0;
      for (const end of ["x1", "x2"]) $("needle").setAttribute(end, there ? Math.min(355, Math.max(5, x)) : -9);
      bar.classList.toggle("out", there && outside(d));
      bar.setAttribute("aria-label", !there ? "no reading yet" : draft.typed + " " + unit + (outside(d) ? (d < a ? ", below" : ", above") + " what the gauge should say" : ", as the gauge should say"));
      const place = picked("place"), has = draft.readings.filter(r => r.place === place.value).map(r => r.clock);
      for (const c of form.querySelectorAll("input[name=clock]")) c.nextElementSibling.classList.toggle("has", has.includes(c.value));
      $("readings").replaceChildren(...draft.readings.map((r, n) => {
        const li = make("li", ""), line = make("span", r.where + ", " + r.at + ": ");
        line.append(make("b", r.size + " " + unit));
        li.classList.toggle("out", outside(Number(r.size)));
        li.append(line, make("button", "Take out", { type: "button", onclick() { draft.readings.splice(n, 1); change(); } }));
        return li;
      }));
      keep.disabled = draft.readings.length === 0 || by.value.trim() === "";
      keep.textContent = draft.readings.length === 0 ? "Keep" : by.value.trim() === "" ? "Keep: say who measures first" : "Keep " + (draft.readings.length === 1 ? "1 reading" : draft.readings.length + " readings");
      $("put").disabled = !(there);
    };
    const change = () => { store.set(key, draft); draw(); };
    const press = k => {
      if (k === "←") draft.typed = draft.typed.slice(0, -1);
      else if (draft.typed.length < 9 && !(k === "." && draft.typed.includes("."))) draft.typed += k;
      change();
    };
    const next = () => {
      const clocks = [...form.querySelectorAll("input[name=clock]")], places = [...form.querySelectorAll("input[name=place]")];
      const at = clocks.indexOf(picked("clock"));
      if (at + 1 < clocks.length) { clocks[at + 1].checked = true; return; }
      const p = places.indexOf(picked("place"));
      if (p + 1 < places.length) { places[p + 1].checked = true; clocks[0].checked = true; }
    };
    const put = () => {
      if (!(number(draft.typed) > 0)) return;
      const place = picked("place"), c = picked("clock");
      const r = { place: place.value, clock: c.value, where: place.nextElementSibling.textContent, at: c.nextElementSibling.textContent, size: draft.typed };
      draft.readings = draft.readings.filter(o => o.place !== r.place || o.clock !== r.clock).concat(r);
      draft.typed = "";
      next();
      change();
    };
    $("keys").addEventListener("click", e => { const k = e.target.dataset.key; if (k) press(k); });
    $("put").addEventListener("click", put);
    addEventListener("keydown", e => {
      if (e.target.matches("input:not([type=radio]):not([type=checkbox])") || e.ctrlKey || e.metaKey || e.altKey) return;
      if (/^[0-9.]$/.test(e.key)) press(e.key);
      else if (e.key === ",") press(".");
      else if (e.key === "Backspace") press("←");
      else if (e.key === "Enter" && !e.target.matches("button, a") && draft.typed) put();
      else return;
      e.preventDefault();
    });
    form.addEventListener("change", draw);
    by.addEventListener("input", () => { store.set("by", by.value.trim()); draw(); });
    form.addEventListener("submit", e => {
      e.preventDefault();
      if (keep.disabled || store.get(waitsKey, []).length > 0) return;
      const now = new Date(), two = n => String(n).padStart(2, "0");
      const entry = {
        id: [...crypto.getRandomValues(new Uint8Array(6))].map(b => b.toString(16).padStart(2, "0")).join(""),
        station, pass: Number(pass), sizes: draft.readings.map(r => r.place + "@" + r.clock + "=" + r.size),
        setting: $("setting").value.trim(), by: by.value.trim(), remark: $("remark").value.trim(),
        when: now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate()) + " " + two(now.getHours()) + ":" + two(now.getMinutes()),
        marked: [], bare: [], sure: false,
      };
      for (const m of form.querySelectorAll("input[type=checkbox]:checked")) entry[m.name].push(m.value);
      store.set(waitsKey, [entry]);
      say(["Sending …"], false);
      send();
    });
    draw();
  }

  // ---- as the page opens ----
  const kept = sessionStorage.getItem("kept");
  sessionStorage.removeItem("kept");
  if (kept) say([kept + (main.dataset.waits ? " Gauge the " + main.dataset.waits + " next." : " The rest is planned from it.")], false);
  if (!main.dataset.reads) send();
  look();
})();

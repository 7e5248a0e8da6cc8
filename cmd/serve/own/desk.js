// The form at the desk. What is changed here is kept in the order in which it was changed and
// sent whole each time: the server makes the file of it, plans it, and says what is wrong. It
// stays in this window when the page is left, until it is saved or put back. An
// answer to an older state never takes the place of a newer one.
"use strict";
(() => {
  const main = document.getElementById("desk"), $ = id => document.getElementById(id);
  const address = "/" + main.dataset.job.split("/").map(encodeURIComponent).join("/");
  let of = main.dataset.of, changes = new Map(), shown = [];
  const make = (tag, text, more) => Object.assign(document.createElement(tag), { textContent: text }, more);
  const put = (id, html) => $(id).replaceChildren(...new DOMParser().parseFromString(html, "text/html").body.childNodes);
  const list = (id, lines) => $(id).replaceChildren(...lines.map(l => make("li", l)));
  const all = path => [...document.querySelectorAll("[data-path]")].filter(e => e.dataset.path === path);
  const ready = () => document.querySelectorAll("#desk :disabled").forEach(e => { e.disabled = false; });
  const say = (lines, down, ...more) => {
    $("news").className = down ? "down" : "";
    $("news").replaceChildren(...lines.map(l => make("p", l)), ...more);
  };
  const draft = "desk " + main.dataset.job;
  const note = () => {
    if (changes.size || shown.length) sessionStorage.setItem(draft, JSON.stringify({ of, changes: [...changes], shown }));
    else sessionStorage.removeItem(draft);
  };
  const asked = form => JSON.stringify({ of, changes: [...changes].map(([path, text]) => ({ path, text })), shown, form, by: $("by").value.trim() });
  const post = (where, form, signal) => fetch(where + address, { method: "POST", headers: { "Content-Type": "application/json" }, body: asked(form), signal });

  // ---- what an answer shows ----
  const others = (o, wherein) => {
    const lines = make("div", "");
    if (o.what) lines.append(...new DOMParser().parseFromString(o.what, "text/html").body.childNodes);
    say(["The file was changed " + o.who + ". " + wherein], true, lines,
      make("button", "Load it anew, with my changes on top", { type: "button", onclick: () => { of = ""; say([]); work(true); } }));
  };
  const show = (a, first) => {
    if (a.wrong) { say(a.wrong, true); return; }
    if (a.form) {
      const here = document.activeElement && document.activeElement.dataset.path;
      put("form", a.form);
      put("slides", a.slides);
      for (const [path, text] of changes) all(path).forEach(e => { e.value = text; });
      ready();
      if (here) all(here)[0]?.focus();
    }
    if (a.of) { of = a.of; note(); }
    if (a.others && !a.of) { others(a.others, "What you changed is still here."); return; }
    if (a.others) others(a.others, "Yours cannot be saved over it."); else if ($("news").className === "down") say([]);
    list("rest", a.rest || []);
    for (const e of document.querySelectorAll("[data-wrong]")) {
      const says = (a.faults || {})[e.dataset.wrong] || [];
      e.textContent = says.join(" ");
      all(e.dataset.wrong).forEach(i => { if (says.length) i.setAttribute("aria-invalid", "true"); else i.removeAttribute("aria-invalid"); });
      if (says.length) e.closest("details").open = true;
    }
    if (a.picture) put("picture", a.picture);
    if (a.plan) { put("moves", a.moves); put("plan", a.plan); }
    $("stale").hidden = Boolean(a.picture || a.plan);
    $("save").disabled = Boolean(a.nothing);
    $("back").disabled = Boolean(a.nothing) && !shown.length;
    if (first) first();
  };

  // ---- asking for it: one request at a time, the latest state next ----
  const patience = 250;
  let turn = 0, busy = 0, again = null, stop = null, timer = 0;
  const run = async (form, first) => {
    const mine = ++turn;
    if (stop) stop.abort();
    stop = new AbortController();
    busy = performance.now();
    again = null;
    try {
      const answer = await post("/desk", form, stop.signal);
      const reader = answer.body.getReader(), text = new TextDecoder();
      let have = "";
      for (;;) {
        const { done, value } = await reader.read();
        have += done ? text.decode() : text.decode(value, { stream: true });
        const lines = have.split("\n");
        have = lines.pop();
        for (const l of lines) {
          if (mine !== turn) return;
          show(JSON.parse(l), first);
          first = null;
        }
        if (done) break;
      }
    } catch (e) {
      if (mine !== turn) return;
      say(["The server does not answer. What you changed is still here; it is sent again with the next change."], true);
    }
    if (mine !== turn) return;
    busy = 0;
    if (again) run(...again);
  };
  const work = (form, first) => {
    note();
    if (again) form = form || again[0];
    again = [form, first];
    clearTimeout(timer);
    const waits = busy ? patience - (performance.now() - busy) : 0;
    if (waits <= 0) run(...again);
    else timer = setTimeout(() => { if (again) run(...again); }, waits);
  };

  // ---- what hands do ----
  const change = (path, text) => {
    changes.set(path, text);
    $("save").disabled = false;
    work(false);
  };
  main.addEventListener("input", e => {
    const path = e.target.dataset.path;
    if (path === undefined) return;
    all(path).forEach(i => { if (i !== e.target) i.value = e.target.value; });
    change(path, e.target.value);
  });
  const under = (path, table) => path === table || path.startsWith(table + ".") || path.startsWith(table + "[");
  main.addEventListener("click", e => {
    const puts = e.target.dataset && e.target.dataset.puts, out = e.target.dataset && e.target.dataset.out;
    if (puts) {
      const path = $(puts).value;
      shown.push(path);
      work(true, () => [...document.querySelectorAll("#form [data-path]")].find(i => under(i.dataset.path, path))?.focus());
    } else if (out) {
      for (const path of changes.keys()) if (under(path, out)) changes.delete(path);
      shown = shown.filter(path => !under(path, out));
      changes.set(out, "");
      work(true);
    }
  });
  $("form").addEventListener("submit", e => e.preventDefault());
  $("back").addEventListener("click", () => { changes.clear(); shown = []; work(true); });

  // ---- saving ----
  const store = { get: () => { try { return JSON.parse(localStorage.getItem("by")) ?? ""; } catch { return ""; } }, set: v => localStorage.setItem("by", JSON.stringify(v)) };
  $("by").value = store.get();
  $("save").addEventListener("click", async () => {
    try {
      const a = await (await post("/changes", false)).json();
      if (a.others && !a.changes) { show(a); return; }
      put("lines", a.changes || "");
      list("why", a.wrong || []);
      if (a.wrong) $("why").prepend(make("li", "It cannot be saved so:"));
      $("write").hidden = Boolean(a.wrong) || Boolean(a.nothing);
      $("ask").showModal();
    } catch { say(["The server does not answer. Nothing is saved."], true); }
  });
  $("close").addEventListener("click", () => $("ask").close());
  $("write").addEventListener("click", async () => {
    store.set($("by").value.trim());
    $("write").disabled = true;
    let a = null;
    try { a = await (await post("/save", false)).json(); } catch { a = null; }
    $("write").disabled = false;
    $("ask").close();
    if (a && a.saved) {
      changes.clear();
      shown = [];
      note();
      sessionStorage.setItem("saved", "Saved: the file is on the disk.");
      location.reload();
    } else if (a && a.others) others(a.others, "Nothing is saved; what you changed is still here.");
    else if (a && a.wrong) say(["Nothing is saved."].concat(a.wrong), true);
    else say(["The server does not answer. It is not known whether it is saved: load the page anew to see."], true);
  });
  const kept = sessionStorage.getItem("saved");
  sessionStorage.removeItem("saved");
  if (kept) say([kept]);
  $("do").hidden = false;
  ready();
  $("save").disabled = $("back").disabled = true;
  let left = null;
  try { left = JSON.parse(sessionStorage.getItem(draft)); } catch { left = null; }
  if (left) {
    of = left.of;
    changes = new Map(left.changes);
    shown = left.shown;
    work(true, () => say(["What was changed here before and not saved is here again."]));
  }
})();

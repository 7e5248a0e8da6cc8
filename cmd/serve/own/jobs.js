// Finds jobs as they are typed: the page is asked for again, and its list put in. While jobs are
// being planned it is asked for again every so often, too; where somebody is in the list, only the
// line that says how far it is changes under the hand.
"use strict";
(() => {
  const box = document.getElementById("find"), list = document.getElementById("jobs");
  let timer = 0, last = box.value;
  const look = async (again) => {
    const typed = box.value;
    if (typed === last && !again) return;
    last = typed;
    try {
      const answer = await fetch("/?find=" + encodeURIComponent(typed));
      const page = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("jobs");
      if (!page || typed !== box.value) return;
      const was = document.getElementById("going"), is = page.querySelector("#going");
      if (was && is && again && list.contains(document.activeElement)) was.textContent = is.textContent;
      else list.replaceChildren(...page.childNodes);
    } catch { last = null; }
  };
  box.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(look, 150); });
  setInterval(() => { if (document.getElementById("going") && !document.hidden) look(true); }, 2000);
})();

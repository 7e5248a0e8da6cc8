(() => {
	const key = "borewright " + document.currentScript.dataset.sheet;
	const boxes = [...document.querySelectorAll("input.box")];
	try {
		const kept = localStorage.getItem(key) || "";
		boxes.forEach((b, i) => { b.checked = kept[i] === "1"; });
		document.addEventListener("change", () => localStorage.setItem(key, boxes.map(b => +b.checked).join("")));
	} catch { /* a device that keeps nothing: boxes can be ticked all the same */ }
})();

/* The season page: filters, order and year strips over the tasks in the page's own data. Nothing is fetched. */
(() => {
  "use strict";
  const DAY = 864e5, STEP = 100, MONTHS_SHOWN = 15;
  const SVG = "http://www.w3.org/2000/svg";
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
  const WIDE = 360, TALL = 26, BAR = [9, 11], NAMES = -3;
  const $ = (id) => document.getElementById(id);
  const data = JSON.parse($("data").textContent);
  const text = (place) => data.texts[place];

  /* Days: whole numbers since 1970, so that no time zone or hour can move them. */
  const number = (iso) => Date.UTC(+iso.slice(0, 4), +iso.slice(5, 7) - 1, +iso.slice(8, 10)) / DAY;
  const day = (iso) => (iso ? number(iso) : null);
  const span = (written) => { const [first, last] = written.split("/"); return [number(first), number(last)]; };
  const spans = (written) => (written ? written.split(" ").map(span) : []);
  const parts = (when) => { const d = new Date(when * DAY); return [d.getUTCDate(), d.getUTCMonth(), d.getUTCFullYear()]; };
  const words = (when) => { const [d, m, y] = parts(when); return `${d} ${MONTHS[m]} ${y}`; };
  const spanWords = ([first, last]) => {
    if (first === last) return words(first);
    const [d, m, y] = parts(first);
    return `${d} ${MONTHS[m]}${y === parts(last)[2] ? "" : ` ${y}`} to ${words(last)}`;
  };
  const list = (some) => some.map(spanWords).join(", ");
  const monday = (when) => when - ((((when + 3) % 7) + 7) % 7);
  const plain = (said) => said.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const counted = (count, noun) => `${count.toLocaleString("en-GB")} ${noun}${count === 1 ? "" : "s"}`;

  const today = number(document.querySelector("time.as-of").dateTime);
  const tasks = data.tasks.map((row, place) => {
    const [client, farm, zone, protocol, state, season, when, open, closed, spreading, best, passed, planned, person, adviser, last, overdue, papers, current] = row;
    const task = {
      place, client, farm: text(farm), zone: text(zone), protocol: text(protocol), state, season: text(season), when, open, closed, spreading,
      best: day(best), passed, planned: day(planned), person: text(person), adviser: text(adviser), last: day(last), overdue, papers, current,
    };
    task.on = task.planned ?? task.best;
    task.week = task.on === null ? "none" : String(monday(task.on));
    const name = data.clients[client][1];
    task.found = plain([name, task.farm, task.zone, task.protocol, data.states[state][1], task.person, task.adviser].join(" \n"));
    return task;
  });

  /* Small makers of elements; every word is set as text, never as markup. */
  const make = (name, properties = {}, ...children) => {
    const element = Object.assign(document.createElement(name), properties);
    element.append(...children);
    return element;
  };
  const draw = (name, attributes, ...children) => {
    const element = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    element.append(...children);
    return element;
  };
  const note = (said) => make("span", { className: "note", textContent: said });

  /* The year strip: the same 15 months for every task, from the month before the as-of date. */
  const [, todayMonth, todayYear] = parts(today);
  const month = (index) => Date.UTC(todayYear, todayMonth - 1 + index, 1) / DAY;
  const from = month(0), to = month(MONTHS_SHOWN);
  const x = (when) => Math.round((Math.min(Math.max(when, from), to) - from) / (to - from) * WIDE * 10) / 10;
  const bar = (kind, [first, last], [top, height]) => draw("rect", { class: kind, x: x(first), y: top, width: Math.max(x(last + 1) - x(first), 1), height });
  /* Slanting lines drawn one by one: a pattern would print as a picture of many megabytes. */
  const tenth = (value) => Math.round(value * 10) / 10;
  const hatched = (left, wide, [top, high] = BAR) => {
    let lines = "";
    for (let at = -high; at < wide; at += 4) {
      const a = Math.max(at, 0), b = Math.min(at + high, wide);
      if (b > a) lines += `M${tenth(left + a)} ${tenth(top + high - (a - at))}L${tenth(left + b)} ${tenth(top + high - (b - at))}`;
    }
    return draw("g", {}, draw("rect", { class: "shut", x: left, y: top, width: wide, height: high }), draw("path", { class: "hatching", d: lines }));
  };
  const shut = ([first, last]) => hatched(x(first), Math.max(x(last + 1) - x(first), 1));
  const seen = (some) => some.filter(([first, last]) => first < to && last >= from);
  const diamond = (kind, when) => { const at = x(when), mid = BAR[0] + BAR[1] / 2; return draw("path", { class: kind, d: `M${at} ${mid - 6}l6 6-6 6-6-6z` }); };
  const spreadMark = ([first]) => draw("path", { class: "spread", d: `M${x(first) - 4} 1h8l-4 7z` });
  const monthNames = (y) => {
    const names = [];
    for (let index = 0; index < MONTHS_SHOWN; index += 1) {
      const [, m, year] = parts(month(index));
      names.push(draw("text", { x: x(month(index)) + 2, y }, MONTHS[m][0]));
      if (m === 0 || index === 0) names.push(draw("text", { x: x(month(index)) + 2, y: y - 12 }, String(year)));
    }
    return names;
  };
  const grid = Array.from({ length: MONTHS_SHOWN + 1 }, (_, index) => `M${x(month(index))} 0V${TALL}`).join("");
  const stripWords = (task) => {
    if (!task.when) return "No season is known.";
    const season = span(task.when), open = spans(task.open), closed = spans(task.closed), spreading = spans(task.spreading);
    const said = [`${task.season}: ${spanWords(season)}`];
    said.push(open.length ? `open ${list(open)}` : "no open day");
    if (closed.length) said.push(`closed ${list(closed)}`);
    if (spreading.length) said.push(`spreading planned ${list(spreading)}`);
    if (task.best !== null) said.push(`best day ${words(task.best)}`);
    if (task.planned !== null) said.push(`planned for ${words(task.planned)}`);
    return `${said.join("; ")}.`;
  };
  const strip = (task) => {
    const picture = draw("svg", { class: "strip", viewBox: `0 0 ${WIDE} ${TALL}`, role: "img", "aria-label": stripWords(task) });
    picture.append(draw("path", { class: "grid", d: grid }));
    if (task.when) {
      const season = span(task.when);
      if (season[0] >= to) picture.append(draw("text", { x: WIDE - 3, y: 19, "text-anchor": "end" }, `from ${words(season[0])}`));
      for (const one of seen([season])) picture.append(bar("season", one, BAR));
      for (const one of seen(spans(task.closed))) picture.append(shut(one));
      for (const one of seen(spans(task.open))) picture.append(bar("open", one, BAR));
      for (const one of seen(spans(task.spreading))) picture.append(spreadMark(one));
    }
    picture.append(draw("path", { class: "today", d: `M${x(today)} 0V${TALL}` }));
    if (task.best !== null && task.best !== task.planned && task.best < to) picture.append(diamond("best", task.best));
    if (task.planned !== null && task.planned < to) picture.append(diamond("going", task.planned));
    picture.append(draw("g", { class: "names" }, ...monthNames(NAMES)));
    return picture;
  };
  const keyEntry = (said, ...drawn) => make("span", {}, draw("svg", { width: 24, height: 18, viewBox: "0 2 24 22" }, ...drawn), said);
  const box = (kind) => draw("rect", { class: kind, x: 1, y: BAR[0], width: 22, height: BAR[1] });
  const drawKey = () => {
    $("key").append(
      keyEntry("season", box("season")),
      keyEntry("open", box("open")),
      keyEntry("closed", hatched(1, 22)),
      keyEntry("spreading planned", draw("path", { class: "spread", d: "M7 8h10l-5 9z" })),
      keyEntry("best day", draw("path", { class: "best", d: "M12 8l6 6-6 6-6-6z" })),
      keyEntry("day in the field calendar", draw("path", { class: "going", d: "M12 8l6 6-6 6-6-6z" })),
      keyEntry("as-of day", draw("path", { class: "today", d: "M12 2V24" })),
    );
    $("months").append(draw("svg", { class: "months", viewBox: `0 0 ${WIDE} 27` }, ...monthNames(24)));
  };

  /* Rows. */
  const cell = (className, ...children) => { const made = make("td", { className }, ...children); made.setAttribute("role", "cell"); return made; };
  const link = (about) => ([said, address]) => make("a", { href: address }, said, make("span", { className: "unseen", textContent: `, ${about}` }));
  const stateNotes = (task) => {
    const [kind] = data.states[task.state], notes = [];
    if (kind === "overdue" && task.overdue !== null) notes.push(task.overdue ? `by ${counted(task.overdue, "month")}` : "by less than a month");
    if (!task.current) notes.push("as last known");
    return notes.map(note);
  };
  const whenCell = (task) => {
    const open = spans(task.open).filter(([, last]) => last >= today);
    if (task.planned !== null) return [words(task.planned), note(task.person ? `${task.person}, field calendar` : "field calendar")];
    if (task.best !== null) return [`best ${words(task.best)}`, note(task.adviser)];
    return [open.length && task.passed ? "as soon as possible" : open.length ? "any open day" : "no day", note(task.adviser)];
  };
  const row = (task, index) => {
    const [, name, papers] = data.clients[task.client];
    const [kind, said] = data.states[task.state];
    const head = make("th", { scope: "row" }, name, ...(task.farm && task.farm !== name ? [note(task.farm)] : []));
    head.setAttribute("role", "rowheader");
    const mark = document.querySelector(`template[data-mark="${kind}"]`).content.cloneNode(true);
    mark.querySelector("svg").setAttribute("aria-hidden", "true");
    const made = make("tr", {}, head,
      cell("zone", task.zone, note(task.protocol)),
      cell("", make("span", { className: "state" }, mark, said), ...stateNotes(task)),
      cell("", ...whenCell(task)),
      cell("year", strip(task)),
      cell("papers-of", ...task.papers.map(link(`${task.zone}, ${name}`)), ...papers.map(link(name))));
    made.setAttribute("role", "row");
    made.setAttribute("aria-rowindex", index + 2);
    return made;
  };

  let chosen = tasks, shown = 0, order = { by: "", down: false };
  const showUpTo = (most) => {
    const until = Math.min(most, chosen.length), some = document.createDocumentFragment();
    for (; shown < until; shown += 1) some.append(row(chosen[shown], shown));
    $("rows").append(some);
    $("more").hidden = shown === chosen.length;
    $("more").textContent = `Show more tasks (${counted(chosen.length - shown, "task")} left)`;
  };

  /* Filters. */
  const fields = { client: $("by-client"), person: $("by-person"), state: $("by-state"), week: $("by-week"), words: $("by-words") };
  const matches = () => {
    const wanted = plain(fields.words.value).split(/\s+/).filter(Boolean);
    const client = fields.client.value, person = fields.person.value, state = fields.state.value, week = fields.week.value;
    return (task) => (!client || data.clients[task.client][0] === client)
      && (!person || task.person === person || task.adviser === person)
      && (!state || data.states[task.state][0] === state)
      && (!week || task.week === week)
      && wanted.every((one) => task.found.includes(one));
  };
  const compare = new Intl.Collator("en", { numeric: true, sensitivity: "base" }).compare;
  /* A text's rank among all of its column, found once: comparing whole numbers is quick at any length of list. */
  const ranked = (textOf) => {
    let ranks = null;
    return (task) => {
      if (!ranks) ranks = new Map([...new Set(tasks.map(textOf))].sort(compare).map((said, rank) => [said, rank]));
      return ranks.get(textOf(task));
    };
  };
  const keys = {
    client: ranked((task) => `${data.clients[task.client][1]} \n${task.farm}`),
    zone: ranked((task) => `${task.zone} \n${task.protocol}`),
    state: (task) => task.state,
    day: (task) => task.on ?? Infinity,
  };
  const sorted = (some) => {
    if (!order.by) return some;
    const key = keys[order.by], sign = order.down ? -1 : 1;
    return some.map((task) => [key(task), task])
      .sort(([a, one], [b, other]) => (a === b ? one.place - other.place : a < b ? -sign : sign)).map(([, task]) => task);
  };
  const keep = () => {
    const said = new URLSearchParams();
    for (const [name, field] of Object.entries(fields)) if (field.value) said.set(name, field.value);
    if (order.by) said.set("order", (order.down ? "-" : "") + order.by);
    const address = said.size ? `#?${said}` : location.pathname + location.search;
    try { history.replaceState(null, "", address); } catch { /* an address that cannot be kept is no loss */ }
  };
  const apply = () => {
    chosen = sorted(tasks.filter(matches()));
    shown = 0;
    $("rows").replaceChildren();
    $("table").setAttribute("aria-rowcount", chosen.length + 1);
    const all = counted(tasks.length, "task");
    $("told").textContent = chosen.length === tasks.length ? `${all}.` : `${chosen.length.toLocaleString("en-GB")} of ${all}.${chosen.length ? "" : " Show all, or ask for less."}`;
    for (const head of document.querySelectorAll("th[data-sort]")) {
      head.setAttribute("aria-sort", head.dataset.sort !== order.by ? "none" : order.down ? "descending" : "ascending");
    }
    showUpTo(STEP);
    keep();
  };

  const option = (value, said) => make("option", { value, textContent: said });
  const tally = (valuesOf) => {
    const counts = new Map();
    for (const task of tasks) for (const value of new Set(valuesOf(task))) counts.set(value, (counts.get(value) ?? 0) + 1);
    return counts;
  };
  const fill = (field, all, counts, entries) => {
    field.append(option("", all));
    for (const [value, said] of entries) if (counts.has(value)) field.append(option(value, `${said} (${counts.get(value).toLocaleString("en-GB")})`));
  };
  const fillFilters = () => {
    const clients = tally((task) => [data.clients[task.client][0]]);
    fill(fields.client, "All clients", clients, data.clients.map(([id, name]) => [id, name]).sort(([, a], [, b]) => compare(a, b)));
    const people = tally((task) => [task.person, task.adviser].filter(Boolean));
    fill(fields.person, "Everybody", people, [...people.keys()].sort(compare).map((name) => [name, name]));
    fill(fields.state, "All states", tally((task) => [data.states[task.state][0]]), data.states);
    const weeks = tally((task) => [task.week]);
    const known = [...weeks.keys()].filter((week) => week !== "none").map(Number).sort((a, b) => a - b);
    fill(fields.week, "All weeks", weeks, [...known.map((week) => [String(week), `Week of ${words(week)}`]), ["none", "Without a day"]]);
  };
  /* What was chosen stands in the address, so that a reader can come back to it. */
  const recall = () => {
    if (!location.hash.startsWith("#?")) return;
    const said = new URLSearchParams(location.hash.slice(2));
    for (const [name, field] of Object.entries(fields)) {
      field.value = said.get(name) ?? "";
      if (field.value !== (said.get(name) ?? "")) field.value = "";
    }
    const by = said.get("order") ?? "", down = by.startsWith("-");
    if (Object.hasOwn(keys, by.slice(down))) order = { by: by.slice(down), down };
  };

  const listen = () => {
    let waiting = 0;
    const soon = () => { clearTimeout(waiting); waiting = setTimeout(apply, 120); };
    for (const field of [fields.client, fields.person, fields.state, fields.week]) field.addEventListener("change", apply);
    fields.words.addEventListener("input", soon);
    $("filters").addEventListener("submit", (event) => event.preventDefault());
    $("filters").addEventListener("reset", () => { order = { by: "", down: false }; setTimeout(apply, 0); });
    for (const head of document.querySelectorAll("th[data-sort]")) {
      head.firstElementChild.addEventListener("click", () => {
        const by = head.dataset.sort;
        order = order.by !== by ? { by, down: false } : order.down ? { by: "", down: false } : { by, down: true };
        apply();
      });
    }
    for (const button of document.querySelectorAll("button[data-state]")) {
      button.addEventListener("click", () => {
        for (const field of Object.values(fields)) field.value = "";
        fields.state.value = button.dataset.state;
        apply();
        $("tasks").scrollIntoView();
        $("tasks").focus({ preventScroll: true });
      });
    }
    $("more").addEventListener("click", () => {
      const first = shown;
      showUpTo(shown + STEP);
      const next = $("rows").children[first];
      if (next) { next.tabIndex = -1; next.focus({ preventScroll: true }); }
    });
    new IntersectionObserver((seenNow) => { if (seenNow.some((one) => one.isIntersecting)) showUpTo(shown + STEP); }, { rootMargin: "600px" }).observe($("more"));
    let unfolded = [];
    window.addEventListener("beforeprint", () => {
      unfolded = [...document.querySelectorAll("details:not([open])")];
      for (const one of unfolded) one.open = true;
      showUpTo(chosen.length);
    });
    window.addEventListener("afterprint", () => { for (const one of unfolded) one.open = false; });
  };

  document.documentElement.classList.add("on");
  drawKey();
  fillFilters();
  recall();
  apply();
  listen();
})();

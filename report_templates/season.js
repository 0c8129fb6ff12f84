/* The season page: filters, order and year strips over the tasks in the page's own data. Nothing is fetched. */
(() => {
  "use strict";
  const DAY = 864e5, STEP = 100, MONTHS_SHOWN = 15;
  const SVG = "http://www.w3.org/2000/svg";
  const WIDE = 360, TALL = 26, BAR = [9, 11], NAMES = -3;
  const $ = (id) => document.getElementById(id);
  const data = JSON.parse($("data").textContent);
  const text = (place) => data.texts[place];

  /* Words stand in the data in the page's language, facts in braces; days and numbers are written as it writes them. */
  const said = data.words, tongue = document.documentElement.lang;
  const fill = (form, facts) => form.replace(/\{(\w+)\}/g, (_, name) => facts[name]);
  const figure = (count) => count.toLocaleString(tongue, { useGrouping: "always" });
  const plural = new Intl.PluralRules(tongue);
  const counted = (forms, count, facts) => fill(forms[plural.select(count)] ?? forms.other, { count: figure(count), ...facts });
  const written = (form) => { const days = new Intl.DateTimeFormat(tongue, { ...form, timeZone: "UTC" }); return (when) => days.format(new Date(when * DAY)); };

  /* Days: whole numbers since 1970, so that no time zone or hour can move them. */
  const number = (iso) => Date.UTC(+iso.slice(0, 4), +iso.slice(5, 7) - 1, +iso.slice(8, 10)) / DAY;
  const day = (iso) => (iso ? number(iso) : null);
  const span = (written) => { const [first, last] = written.split("/"); return [number(first), number(last)]; };
  const spans = (written) => (written ? written.split(" ").map(span) : []);
  const parts = (when) => { const d = new Date(when * DAY); return [d.getUTCDate(), d.getUTCMonth(), d.getUTCFullYear()]; };
  const words = written({ day: "numeric", month: "long", year: "numeric" });
  const withoutYear = written({ day: "numeric", month: "long" });
  const letter = written({ month: "narrow" });
  const spanWords = ([first, last]) => {
    if (first === last) return words(first);
    const yearOnce = said.year_once && parts(first)[2] === parts(last)[2];
    return fill(said.span, { first: yearOnce ? withoutYear(first) : words(first), last: words(last) });
  };
  const list = (some) => some.map(spanWords).join(", ");
  const monday = (when) => when - ((((when + 3) % 7) + 7) % 7);
  const plain = (some) => some.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();

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
  const note = (some) => make("span", { className: "note", textContent: some });

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
      names.push(draw("text", { x: x(month(index)) + 2, y }, letter(month(index))));
      if (m === 0 || index === 0) names.push(draw("text", { x: x(month(index)) + 2, y: y - 12 }, String(year)));
    }
    return names;
  };
  const grid = Array.from({ length: MONTHS_SHOWN + 1 }, (_, index) => `M${x(month(index))} 0V${TALL}`).join("");
  const stripWords = (task) => {
    if (!task.when) return said.strip.none;
    const season = span(task.when), open = spans(task.open), closed = spans(task.closed), spreading = spans(task.spreading);
    const some = [`${task.season}: ${spanWords(season)}`];
    some.push(open.length ? fill(said.strip.open, { days: list(open) }) : said.strip.shut);
    if (closed.length) some.push(fill(said.strip.closed, { days: list(closed) }));
    if (spreading.length) some.push(fill(said.strip.spreading, { days: list(spreading) }));
    if (task.best !== null) some.push(fill(said.strip.best, { day: words(task.best) }));
    if (task.planned !== null) some.push(fill(said.strip.planned, { day: words(task.planned) }));
    return `${some.join("; ")}.`;
  };
  const strip = (task) => {
    const picture = draw("svg", { class: "strip", viewBox: `0 0 ${WIDE} ${TALL}`, role: "img", "aria-label": stripWords(task) });
    picture.append(draw("path", { class: "grid", d: grid }));
    if (task.when) {
      const season = span(task.when);
      if (season[0] >= to) picture.append(draw("text", { x: WIDE - 3, y: 19, "text-anchor": "end" }, fill(said.strip.from, { day: words(season[0]) })));
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
  const keyEntry = (name, ...drawn) => make("span", {}, draw("svg", { width: 24, height: 18, viewBox: "0 2 24 22" }, ...drawn), said.key[name]);
  const box = (kind) => draw("rect", { class: kind, x: 1, y: BAR[0], width: 22, height: BAR[1] });
  const drawKey = () => {
    $("key").append(
      keyEntry("season", box("season")),
      keyEntry("open", box("open")),
      keyEntry("closed", hatched(1, 22)),
      keyEntry("spreading", draw("path", { class: "spread", d: "M7 8h10l-5 9z" })),
      keyEntry("best", draw("path", { class: "best", d: "M12 8l6 6-6 6-6-6z" })),
      keyEntry("planned", draw("path", { class: "going", d: "M12 8l6 6-6 6-6-6z" })),
      keyEntry("today", draw("path", { class: "today", d: "M12 2V24" })),
    );
    $("months").append(draw("svg", { class: "months", viewBox: `0 0 ${WIDE} 27` }, ...monthNames(24)));
  };

  /* Rows. */
  const cell = (className, ...children) => { const made = make("td", { className }, ...children); made.setAttribute("role", "cell"); return made; };
  const link = (about) => ([name, address]) => make("a", { href: address }, name, make("span", { className: "unseen", textContent: `, ${about}` }));
  const stateNotes = (task) => {
    const [kind] = data.states[task.state], notes = [];
    if (kind === "overdue" && task.overdue !== null) notes.push(task.overdue ? counted(said.by_months, task.overdue) : said.by_less);
    if (!task.current) notes.push(said.as_known);
    return notes.map(note);
  };
  const whenCell = (task) => {
    const open = spans(task.open).filter(([, last]) => last >= today);
    if (task.planned !== null) return [words(task.planned), note(task.person ? fill(said.person_in_calendar, { person: task.person }) : said.in_calendar)];
    if (task.best !== null) return [fill(said.best, { day: words(task.best) }), note(task.adviser)];
    return [open.length && task.passed ? said.soon : open.length ? said.any_day : said.no_day, note(task.adviser)];
  };
  const row = (task, index) => {
    const [, name, papers] = data.clients[task.client];
    const [kind, stands] = data.states[task.state];
    const head = make("th", { scope: "row" }, name, ...(task.farm && task.farm !== name ? [note(task.farm)] : []));
    head.setAttribute("role", "rowheader");
    const mark = document.querySelector(`template[data-mark="${kind}"]`).content.cloneNode(true);
    mark.querySelector("svg").setAttribute("aria-hidden", "true");
    const made = make("tr", {}, head,
      cell("zone", task.zone, note(task.protocol)),
      cell("", make("span", { className: "state" }, mark, stands), ...stateNotes(task)),
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
    $("more").textContent = counted(said.more, chosen.length - shown);
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
  const compare = new Intl.Collator(tongue, { numeric: true, sensitivity: "base" }).compare;
  /* A text's rank among all of its column, found once: comparing whole numbers is quick at any length of list. */
  const ranked = (textOf) => {
    let ranks = null;
    return (task) => {
      if (!ranks) ranks = new Map([...new Set(tasks.map(textOf))].sort(compare).map((some, rank) => [some, rank]));
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
    const kept = new URLSearchParams();
    for (const [name, field] of Object.entries(fields)) if (field.value) kept.set(name, field.value);
    if (order.by) kept.set("order", (order.down ? "-" : "") + order.by);
    const address = kept.size ? `#?${kept}` : location.pathname + location.search;
    try { history.replaceState(null, "", address); } catch { /* an address that cannot be kept is no loss */ }
  };
  const apply = () => {
    chosen = sorted(tasks.filter(matches()));
    shown = 0;
    $("rows").replaceChildren();
    $("table").setAttribute("aria-rowcount", chosen.length + 1);
    const some = counted(said.some, tasks.length, { some: figure(chosen.length) });
    $("told").textContent = chosen.length === tasks.length ? counted(said.all, tasks.length) : chosen.length ? some : `${some} ${said.none}`;
    for (const head of document.querySelectorAll("th[data-sort]")) {
      head.setAttribute("aria-sort", head.dataset.sort !== order.by ? "none" : order.down ? "descending" : "ascending");
    }
    showUpTo(STEP);
    keep();
  };

  const option = (value, name) => make("option", { value, textContent: name });
  const tally = (valuesOf) => {
    const counts = new Map();
    for (const task of tasks) for (const value of new Set(valuesOf(task))) counts.set(value, (counts.get(value) ?? 0) + 1);
    return counts;
  };
  const offer = (field, all, counts, entries) => {
    field.append(option("", all));
    for (const [value, name] of entries) if (counts.has(value)) field.append(option(value, `${name} (${figure(counts.get(value))})`));
  };
  const fillFilters = () => {
    const clients = tally((task) => [data.clients[task.client][0]]);
    offer(fields.client, said.all_clients, clients, data.clients.map(([id, name]) => [id, name]).sort(([, a], [, b]) => compare(a, b)));
    const people = tally((task) => [task.person, task.adviser].filter(Boolean));
    offer(fields.person, said.everybody, people, [...people.keys()].sort(compare).map((name) => [name, name]));
    offer(fields.state, said.all_states, tally((task) => [data.states[task.state][0]]), data.states);
    const weeks = tally((task) => [task.week]);
    const known = [...weeks.keys()].filter((week) => week !== "none").map(Number).sort((a, b) => a - b);
    offer(fields.week, said.all_weeks, weeks, [...known.map((week) => [String(week), fill(said.week, { day: words(week) })]), ["none", said.without_day]]);
  };
  /* What was chosen stands in the address, so that a reader can come back to it. */
  const recall = () => {
    if (!location.hash.startsWith("#?")) return;
    const kept = new URLSearchParams(location.hash.slice(2));
    for (const [name, field] of Object.entries(fields)) {
      field.value = kept.get(name) ?? "";
      if (field.value !== (kept.get(name) ?? "")) field.value = "";
    }
    const by = kept.get("order") ?? "", down = by.startsWith("-");
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

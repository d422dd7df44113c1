"use strict";
// What the report's page does beyond being read: tables that sort, filter and save, and questions
// answered in a worker. Without scripts every table stands there in full.
(function () {
  const ROWS_A_PAGE = 25;
  const FEWEST_TO_SEARCH = 8;
  const FILTERED = ["Site", "Product", "Service", "State", "Component"];

  /** The first number of a cell, for sorting; what has none goes last. */
  function leadingNumber(text) {
    const found = /[-−]?\d[\d,]*(\.\d+)?/.exec(text.replace(/<[^>]*>/g, "").replace("&lt;", ""));
    return found ? Number(found[0].replace(/,/g, "").replace("−", "-")) : Number.NEGATIVE_INFINITY;
  }

  function textOf(html) {
    const holder = document.createElement("template");
    holder.innerHTML = html;
    return holder.content.textContent;
  }

  function element(name, attributes, ...children) {
    const made = document.createElement(name);
    Object.entries(attributes).forEach(([key, value]) => made.setAttribute(key, value));
    made.append(...children);
    return made;
  }

  /** A cell of a CSV file; what a spreadsheet would take for a formula is made text. */
  function csvCell(text) {
    const risky = /^[=+\-@\t\r]/.test(text) && !/^[-+]?[\d.,]+$/.test(text);
    const safe = risky ? "'" + text : text;
    return /[",\r\n]/.test(safe) ? '"' + safe.replace(/"/g, '""') + '"' : safe;
  }

  function save(name, text) {
    const url = URL.createObjectURL(new Blob(["\ufeff" + text], { type: "text/csv;charset=utf-8" }));
    const link = element("a", { href: url, download: name });
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
  }

  /** Rows as shown: filtered and in their present order. */
  function csvOf(table) {
    const head = table.columns().header().toArray().map((th) => csvCell(th.textContent.trim()));
    const rows = table
      .rows({ search: "applied", order: "applied" })
      .data()
      .toArray()
      .map((row) => row.map((cell) => csvCell(textOf(cell))).join(","));
    return [head.join(","), ...rows].join("\r\n") + "\r\n";
  }

  let made = 0;

  function control(label, field) {
    made += 1;
    field.id = "control-" + made;
    return element("span", { class: "control" }, element("label", { for: field.id }, label), field);
  }

  function filterOf(table, index, heading) {
    const values = [...new Set(table.column(index).data().toArray().map(textOf))].sort();
    if (values.length < 2) {
      return null;
    }
    const select = element("select", {}, element("option", { value: "" }, "all"));
    values.forEach((value) => select.append(element("option", { value }, value)));
    select.addEventListener("change", () => {
      table.column(index).search(select.value, { exact: true }).draw();
    });
    return control(heading, select);
  }

  function controlsOf(table, caption) {
    const bar = element("div", { class: "controls" });
    const headings = table.columns().header().toArray().map((th) => th.textContent.trim());
    if (table.rows().count() >= FEWEST_TO_SEARCH) {
      const search = element("input", { type: "search" });
      search.addEventListener("input", () => table.search(search.value).draw());
      bar.append(control("Search", search));
      headings.forEach((heading, i) => {
        const filter = FILTERED.includes(heading) ? filterOf(table, i, heading) : null;
        if (filter) {
          bar.append(filter);
        }
      });
    }
    const button = element("button", { type: "button" }, "Save as CSV");
    button.setAttribute("aria-label", "Save as CSV: " + caption);
    const name = caption.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "").slice(0, 60);
    button.addEventListener("click", () => save(name + ".csv", csvOf(table)));
    bar.append(button);
    return bar;
  }

  /** Makes a table sort, filter and save. */
  function enliven(region) {
    const node = region.querySelector("table");
    const rows = node.tBodies[0].rows.length;
    if (rows < 2) {
      return null;
    }
    const caption = node.caption ? node.caption.textContent : region.getAttribute("aria-label");
    const table = new DataTable(node, {
      autoWidth: false,
      order: [],
      paging: rows > ROWS_A_PAGE,
      pageLength: ROWS_A_PAGE,
      columnDefs: [
        {
          targets: "number",
          type: "num",
          render: (data, type) => (type === "sort" || type === "type" ? leadingNumber(data) : data),
        },
        { targets: ["text", "tag", "date", "sentence", "code"], type: "html" },
      ],
      layout: {
        topStart: null,
        topEnd: null,
        bottomStart: rows > ROWS_A_PAGE ? "info" : null,
        bottomEnd: rows > ROWS_A_PAGE ? "paging" : null,
      },
      language: {
        info: "_START_ to _END_ of _TOTAL_",
        infoEmpty: "nothing to show",
        infoFiltered: "(from _MAX_)",
        zeroRecords: "No row has that.",
        aria: { orderable: ": sort", orderableReverse: ": sort the other way" },
      },
    });
    region.before(controlsOf(table, caption));
    return table;
  }

  const tables = [...document.querySelectorAll("div.scroll[data-table]")].map(enliven).filter(Boolean);

  // A printed page cannot be turned: print every row.
  let lengths = [];
  window.addEventListener("beforeprint", () => {
    lengths = tables.map((table) => table.page.len());
    tables.forEach((table) => table.page.len(-1).draw());
    document.querySelectorAll("details:not(.data):not([open])").forEach((d) => {
      d.dataset.closed = "yes";
      d.open = true;
    });
  });
  window.addEventListener("afterprint", () => {
    tables.forEach((table, i) => table.page.len(lengths[i]).draw());
    document.querySelectorAll("details[data-closed]").forEach((d) => {
      delete d.dataset.closed;
      d.open = false;
    });
  });

  // ---- what if

  const form = document.getElementById("what-if-form");
  if (!form) {
    return;
  }
  const said = document.getElementById("what-if-said");
  const shown = document.getElementById("what-if-answer");
  const work = form.querySelector("button[type=submit]");

  /** The number in a field, or nothing when it still says what the records say. */
  function changed(field) {
    return field && field.value.trim() !== field.defaultValue ? Number(field.value) : Number.NaN;
  }

  function question() {
    const stops = [...form.querySelectorAll("input[data-component]")].filter(
      (field) => field.value.trim() !== field.defaultValue);
    const usage = changed(form.elements.usage);
    return {
      planned: changed(form.elements.planned),
      components: stops.map((field) => field.dataset.component),
      unplanned: stops.map((field) => Number(field.value)),
      months: changed(form.elements.months),
      usage: Number.isNaN(usage) ? 1 : usage / 100,
    };
  }

  function row(cells, name, classes) {
    const made = element("tr", {});
    cells.forEach((cell, i) => made.append(element(name, classes(i), cell)));
    return made;
  }

  function tableOf(caption, headings, rows, sentences) {
    const kind = (i) => ({ class: sentences.includes(i) ? "text" : "number" });
    return element(
      "div",
      { class: "scroll", role: "region", tabindex: "0", "aria-label": caption, "data-table": "" },
      element(
        "table",
        {},
        element("caption", {}, caption),
        element("thead", {}, row(headings, "th", (i) => ({ scope: "col", ...kind(i) }))),
        element("tbody", {}, ...rows.map((cells) => row(cells, "td", kind)))));
  }

  function show(answer) {
    if (answer.refused) {
      said.textContent = answer.refused;
      return;
    }
    said.textContent = answer.asked
      ? "What if " + answer.asked + ". Everything else as recorded."
      : "Everything as recorded.";
    const parts = [
      tableOf("Planned interval by service", answer.serviceHeadings, answer.services, [0, 3]),
      tableOf("Every pump, most urgent first", answer.pumpHeadings, answer.pumps, [0, 1, 2, 3, 5, 6, 7, 8]),
    ];
    shown.replaceChildren(
      element("p", {}, element("strong", {}, answer.due + " of " + answer.pumps.length + " pumps"),
        " would be due within 90 days, taking parts for " + answer.partsCost + "."),
      ...parts);
    if (answer.parts.length > 0) {
      const kits = tableOf("Kits and loose parts for the pumps due", answer.partHeadings, answer.parts, [0]);
      shown.append(kits);
      parts.push(kits);
    }
    parts.forEach(enliven);
  }

  let worker = null;
  let address = null;

  /** The worker's own program: ours, and a few lines that pass questions on. */
  function start() {
    if (address === null) {
      const code = document.getElementById("what-if-code").textContent;
      const passing = "\nmain([]);\nself.onmessage = (event) => {\n"
        + "  const {packet, question} = event.data;\n"
        + "  try {\n"
        + "    const answer = self.vanewardAsk(packet, question, (where) => self.postMessage({where}));\n"
        + "    self.postMessage({answer});\n"
        + "  } catch (failure) {\n"
        + "    self.postMessage({answer: {refused: 'The page cannot answer that: ' + failure}});\n"
        + "  }\n};\n";
      address = URL.createObjectURL(new Blob([code + passing], { type: "text/javascript" }));
    }
    return new Worker(address);
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (worker) {
      worker.terminate();
    }
    worker = start();
    shown.setAttribute("aria-busy", "true");
    said.textContent = "Working it out …";
    let last = 0;
    worker.onmessage = (message) => {
      if (message.data.where) {
        // Twice a second is enough for an eye, and for a voice that reads it out.
        if (Date.now() - last > 500) {
          last = Date.now();
          work.textContent = "Working: " + message.data.where;
        }
        return;
      }
      work.textContent = "Work it out";
      shown.removeAttribute("aria-busy");
      show(message.data.answer);
    };
    worker.postMessage({
      packet: document.getElementById("what-if-packet").textContent,
      question: question(),
    });
  });

  form.addEventListener("reset", () => {
    if (worker) {
      worker.terminate();
      worker = null;
    }
    work.textContent = "Work it out";
    said.textContent = "";
    shown.replaceChildren();
    shown.removeAttribute("aria-busy");
  });
})();

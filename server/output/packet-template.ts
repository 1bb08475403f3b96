/**
 * The pages as Typst sets them: one template for day sheets, week sheets and packets, which reads everything it
 * says from `data.json`. Nothing of a plan ever stands in the template, so no sign in a title can mean anything.
 */
export const TEMPLATE = `
#let d = json("data.json")
#let large = d.large
#let size = if large { 15pt } else { 10.5pt }
#let margins = if d.kind == "packet" { (x: 18mm, top: 16mm, bottom: 17mm) } else { (x: d.margin * 1mm, top: d.top * 1mm, bottom: d.bottom * 1mm) }

#set document(title: d.title, date: none)
#set text(font: ("Tinos", "DejaVu Sans"), size: size, lang: "en", hyphenate: false)
#set par(justify: false, leading: 0.5em, spacing: 0.6em)
#set page(
  paper: if d.paper == "letter" { "us-letter" } else { "a4" },
  margin: margins,
  footer-descent: if d.kind == "packet" { 30% } else { 20% },
  footer: context {
    set text(size: 0.74em)
    grid(
      columns: (1fr, auto),
      column-gutter: 1em,
      d.foot,
      if d.kind == "packet" { counter(page).display("1") } else { [] },
    )
  },
)
#show heading: set block(above: 0pt, below: 0pt)
#show heading: set text(weight: "bold", size: size)
#show heading.where(level: 1): set text(size: size * 1.8)
#show heading.where(level: 2): set text(size: size * (if d.kind == "packet" { 1.3 } else { 1.15 }))

#let tick = box(width: 0.85em, height: 0.85em, stroke: 0.7pt + black, baseline: 0.12em)
#let blank(width) = box(width: width, height: 0.55em, stroke: (bottom: 0.5pt + black), baseline: 0.15em)
#let tag(words) = box(stroke: 0.5pt + black, inset: (x: 2.5pt), outset: (y: 2pt), radius: 1.5pt, text(size: 0.78em, words))
#let picture(p) = image(p.file, width: p.width * 1mm, alt: p.alt)
// The note stands beside its name, so that to those who listen it is said once.
#let tempo(t) = [#t.value #if t.file != "" { pdf.artifact(box(baseline: 0.06em, image(t.file, height: 0.92em))) } #t.number.replace("= ", "= ")]
#let parts(words) = words.filter(each => each != "").join(" · ")

// Where a sheet begins and ends, so that whoever set it knows how many pages it took.
#let mark(name, id) = context [#metadata((id: id, page: here().page())) #label(name)]

// Whose sheet it is and of when are one heading, and so one bookmark; under it the aim, and the place in the term.
#let sheet-head(s, when) = {
  heading(level: 1)[#s.player #h(1fr) #text(size: 0.6em, when)]
  let aim = if s.aim != "" { text(size: 1.25em, emph[“#s.aim”]) } else { [] }
  block(above: 1.8mm, below: 0mm, width: 100%, grid(
    columns: (1fr, auto),
    column-gutter: 1.5em,
    align: (left + bottom, right + bottom),
    aim,
    parts((s.week, s.term)),
  ))
  block(above: 1.6mm, below: 0mm, line(length: 100%, stroke: 1.2pt + black))
}

#let figures(t) = {
  let cell(name, value) = [#name #strong(value)]
  (cell("Clock", t.clock), cell("playing", t.playing), cell("upper", t.upper), cell("longest stretch", t.stretch), cell("load", t.load)).join(" · ")
}

// A number stays with its unit.
#let together(words) = words.replace(regex(" s$"), " s")

#let reached(l) = if l.tempo != none [ #h(0.5em) #box[#text(size: 0.85em)[reached] #blank(3.2em)]]
#let asked(l) = {
  let said = (l.what, if l.tempo != none { tempo(l.tempo) } else { "" }, together(l.rest)).filter(each => each != "")
  said.join([, ])
  if l.short { [ #h(0.3em) #tag("short")] }
  if l.drop { [ #h(0.3em) #tag("drop when tired")] }
  if l.opening { [ #h(0.3em) #tag(d.opening.mark)] }
}

#let item-head(l) = grid(
  columns: (1.5em, 1fr, auto),
  tick,
  {
    [#strong(l.name) #h(0.25em) #asked(l)]
    if l.aim != "" { [ #h(0.35em) #emph(l.aim)] }
  },
  [#h(0.8em) #strong(l.clock)#reached(l)],
)

#let captioned(m) = {
  if m.caption != "" { block(above: 0.6mm, below: 0.4mm, strong(text(size: 0.9em, m.caption))) }
  picture(m)
}

#let further(l) = if l.further != "" { block(above: 1mm, below: 0pt, text(size: 0.9em)[then the same in #l.further]) }

#let others(l) = {
  for m in l.music.slice(calc.min(1, l.music.len())) { block(breakable: false, above: 1.6mm, below: 0pt, captioned(m)) }
  further(l)
}

// What an item is called and takes stands over what is asked.
#let item-words(l, reached-there) = {
  grid(columns: (1fr, auto), strong(l.name), [#h(0.6em) #strong(l.clock)#reached-there])
}

#let item-beside(l) = grid(
  columns: (1.5em, d.words * 1mm - 1.5em - 4mm, 4mm, 1fr),
  align: (top, top, top, horizon),
  tick,
  {
    item-words(l, [])
    block(above: 1.7mm, below: 0pt, [#asked(l)#reached(l)])
    if l.aim != "" { block(above: 1.7mm, below: 0pt, emph(l.aim)) }
  },
  [],
  picture(l.music.first()),
)

#let in-column(l) = {
  grid(
    columns: (1.5em, 1fr),
    tick,
    {
      item-words(l, reached(l))
      block(above: 1.5mm, below: 0pt)[#asked(l)#if l.aim != "" [ #h(0.35em) #emph(l.aim)]]
    },
  )
  if l.music.len() > 0 { block(above: 1mm, below: 0mm, captioned(l.music.first())) }
  others(l)
}

#let session(s) = {
  block(breakable: false, sticky: true, width: 100%, above: 3.8mm, below: 1.2mm, {
    grid(
      columns: (1fr, auto),
      column-gutter: 1em,
      align: (left + bottom, right + bottom),
      heading(level: 2)[#s.name#if s.today-short [ (short version)]],
      s.minutes,
    )
    block(above: 1.1mm, below: 1.4mm, line(length: 100%, stroke: 0.5pt + black))
    for aim in s.aims { block(above: 1mm, below: 1mm, emph(aim)) }
  })
  for row in s.rows {
    let l = row.first()
    if l.kind == "pause" {
      block(width: 100%, above: 2.6mm, below: 0.8mm, align(center, text(size: 0.9em, [— #l.text —])))
      continue
    }
    // What is left of a page is shared out between the exercises, most of it below the last.
    v(1fr)
    if row.len() == 2 {
      block(
        breakable: false,
        width: 100%,
        above: 0pt,
        below: 0pt,
        inset: (top: d.gap * 1mm),
        grid(columns: row.map(each => each.column * 1mm), column-gutter: d.gutter * 1mm, ..row.map(in-column)),
      )
      continue
    }
    block(breakable: false, width: 100%, above: 0pt, below: 0pt, inset: (top: d.gap * 1mm), {
      if l.music.len() > 0 and l.music.first().beside {
        item-beside(l)
      } else {
        item-head(l)
        if l.music.len() > 0 { block(above: 0.6mm, below: 0mm, captioned(l.music.first())) }
      }
    })
    others(l)
  }
  if s.short-version.len() > 0 {
    block(breakable: false, width: 100%, above: 2mm, below: 0pt, text(size: 0.88em)[
      #strong[Short version#if s.short-minutes != "" [, #s.short-minutes]:] #s.short-version.join("; ").
    ])
  }
}

#let day-sheet(s) = {
  set text(size: s.words * 1pt)
  mark("start", s.id)
  sheet-head(s, s.day)
  let about = (s.lesson, ..s.remarks, if s.ahead.len() > 0 { "Ahead: " + s.ahead.join(" · ") } else { "" })
  if about.any(each => each != "") { block(above: 2mm, below: 0mm, text(size: 0.92em, parts(about))) }
  for each in s.sessions { session(each) }
  v(9fr)
  block(breakable: false, width: 100%, above: 2.5mm, {
    line(length: 100%, stroke: 0.5pt + black)
      grid(
      columns: (1fr, auto),
      column-gutter: 1em,
      row-gutter: 2.6mm,
      text(size: 0.9em)[#figures(s.totals)#if s.counted != "" [ (#s.counted)]#if s.opened [ #h(1em) #tag(d.opening.mark): #d.opening.meaning]],
      [],
      [How it felt, 0 to 10 #blank(3em) #h(0.8em) What I noticed #blank(1fr)],
      [Signed #blank(7em)],
    )
  })
  mark("end", s.id)
}

#let week-sheet(s) = {
  mark("start", s.id)
  sheet-head(s, s.dates)
  v(2mm)
  if s.ahead.len() > 0 { block(above: 0mm, below: 3mm, text(size: 0.92em)[Ahead: #s.ahead.join(" · ")]) }
  let n = s.columns.len()
  let narrow = (if large { 21mm } else { 18mm })
  set text(size: 0.9em)
  table(
    columns: (1fr, ..s.columns.map(_ => narrow)),
    align: (left + horizon, ..s.columns.map(_ => center + horizon)),
    stroke: (x, y) => (bottom: 0.4pt + black, top: if y == 0 { 0.8pt + black } else { none }, left: if x > 0 { 0.4pt + black } else { none }),
    inset: (x: 1mm, y: 1.1mm),
    table.header([], ..s.columns.map(c => [#strong(c.label) #if c.remark != "" { linebreak(); text(size: 0.78em, c.remark) }])),
    ..s.sessions.map(g => (
      table.cell(colspan: n + 1, inset: (x: 1mm, top: 2mm, bottom: 1mm), strong(g.name)),
      ..g.rows.map(r => (
        [#r.name #if r.drop [ #tag("drop when tired")] #if r.detail != "" { linebreak(); text(size: 0.84em, r.detail) }],
        ..r.cells.map(c => if c == "" { [] } else [#if c != "·" { [#c ] }#tick]),
      )).flatten(),
    )).flatten(),
    ..d.figures.map(f => (
      emph(f.name),
      ..s.totals.slice(0, n).map(t => t.at(f.key)),
    )).flatten(),
    [How it felt, 0 to 10], ..s.columns.map(_ => []),
  )
  v(2mm)
  [The whole week: #figures(s.totals.last())]
  v(1fr)
  block(breakable: false, width: 100%, {
    grid(columns: (1fr, auto), column-gutter: 1em, [What I noticed #blank(1fr)], [Signed #blank(8em)])
  })
  mark("end", s.id)
}

#let packet(p) = {
  page(footer: none, {
    v(1fr)
    align(center, {
      title(text(size: 2.4em, p.title))
      v(4mm)
      line(length: 40%, stroke: 1.2pt + black)
      v(4mm)
      for each in p.lines { text(size: 1.25em, each); linebreak() }
    })
    v(2fr)
    text(size: 0.92em, p.cautions.join([ #linebreak() ]))
  })
  show outline.entry.where(level: 1): set block(above: 1.1em)
  show outline.entry.where(level: 1): set text(weight: "bold")
  outline(title: text(size: 1.5em)[Contents], depth: 2)
  for a in p.areas {
    pagebreak(weak: true)
    block(below: 2mm, heading(level: 1, a.name))
    for aim in a.aims { block(above: 1mm, below: 1mm, text(size: 1.15em, emph(aim))) }
    line(length: 100%, stroke: 1pt + black)
    for e in a.exercises {
      let head = {
        heading(level: 2, e.name)
        let facts = (e.without, ..e.facts).filter(each => each != "")
        if e.tempo != none { facts.insert(0, tempo(e.tempo)) }
        if facts.len() > 0 { block(above: 1.8mm, below: 0pt, facts.join(" · ")) }
        for aim in e.aims { block(above: 1.8mm, below: 0pt, emph(aim)) }
      }
      let key(m) = {
        if m.caption != "" and e.music.len() > 1 { block(above: 0pt, below: 1mm, heading(level: 3, outlined: false, bookmarked: true, m.caption)) }
        else if m.caption != "" { block(above: 0pt, below: 1mm, strong(m.caption)) }
        picture(m)
      }
      // A heading never stands without the music under it.
      block(breakable: false, above: 8mm, below: 0pt, width: 100%, {
        head
        if e.music.len() > 0 { block(above: 3mm, below: 0pt, key(e.music.first())) }
      })
      for m in e.music.slice(calc.min(1, e.music.len())) { block(breakable: false, above: 4mm, below: 0pt, width: 100%, key(m)) }
    }
  }
}

#if d.kind == "packet" { packet(d.packet) } else {
  for (i, s) in d.sheets.enumerate() {
    if i > 0 { pagebreak() }
    if s.kind == "day" { day-sheet(s) } else { week-sheet(s) }
  }
}
`;

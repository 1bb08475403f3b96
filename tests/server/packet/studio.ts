/** A small studio with everything that a sheet can say: written for these tests, nobody in it is real. */
export const STUDIO = `studio "Towpath brass" { horn down 15 s  breath between 2 s }

area "Tones" { aim "one even ribbon" }
area "Songs"

exercise "Slow fifths" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/2 = 50
  aim "the same ring on both"
  music { 1/2 C4 (G4 | C5 G4) | 1/1 C4 ' | }
  rest equal
}
exercise "Études № 1: crème brûlée # $ [x] *y* _z_ @w" {
  in "Songs"
  key F major
  meter 3/4
  tempo 1/4 = 84
  music { 1/4 F4 A4 C5 | 1/2. F4 ' | }
  rest 20 s
}
exercise "Two rungs" {
  in "Tones"
  meter 4/4
  tempo 1/4 = 60
  partials { 1/2 lip (2 3) ' | 1/1 2 ' | }
  rest 10 s
}
exercise "Downstairs" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 A4 (F4 | 1/1 G4) ' | }
  series 3 cells down by half step
  rest 8 s
}
exercise "Study" {
  in "Songs"
  printed "Quayside studies" page 12 bars 1 to 24
  range G3 to G5
  tempo 1/4 = 88
  lasts 2 min
}
exercise "Breathing" {
  in "Tones"
  activity breathing
  spares lips
  lasts 1 min
}

level "Seniors" {
  instrument trumpet in Bb
  range G3 to A5
  limit F#3 to C6
  upper from C5
  breath 10 s
}
level "Beginners" { instrument trumpet in Bb  stage first year }
student "K. M." like "Seniors" { aim "sound first" }
student "Zoë" like "Beginners"

term "Autumn" for "Seniors", "Beginners" {
  from 2026-09-07 to 2026-09-26
  practice Mon to Sat
  lesson every Tue
  concert 2026-09-25 "Harbour concert" { clock 60 min  playing 20 min  upper 2 min }
  light 2026-09-10 to 2026-09-10
  goal "Slow fifths from memory" by week 2
  goal "Exam" by 2026-09-22
  short every Wed

  weeks 1 to 3 {
    aim "listen before you play"
    Mon to Fri "Morning" 10 min {
      aim "easy first notes"
      "Breathing" once
      "Slow fifths" keys C up by half step to E tempo 50 to 54 twice
      rest 1 min
      "Études № 1: crème brûlée # $ [x] *y* _z_ @w" in G once drop when tired
      "Two rungs" all valves open, 2, 1 once
      "Downstairs" for 1 min
      "Study" once
      short 4 min {
        "Slow fifths" in C once
      }
    }
  }
}

term "Empty" for "Zoë" {
  from 2027-01-11 to 2027-01-16
}
`;

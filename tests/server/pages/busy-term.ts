/** A term of three taught weeks with a closed week, a band and a concert; its figures are worked out beside the checks. */
export const BUSY = `area "Tones"
area "Slurs"

exercise "Fifths" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  degrees from C4 { 1/2 1 5 | 1/1 1 ' | }
  rest equal
}

exercise "Steps" {
  in "Slurs"
  meter 4/4
  tempo 1/4 = 60
  partials { 1/2 lip (2 3) | 1/1 2 ' | }
}

level "Seniors" {
  instrument trumpet in Bb
  range G3 to A5
  limit F#3 to C6
  upper from F5
  breath 20 s
  tongue sixteenths at 105
  each day { clock at most 20 min  playing at most 15 min }
}

student "K. M." like "Seniors" { }

term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-10-02
  practice Mon to Fri
  closed 2026-09-14 to 2026-09-19
  booked every Fri "Band" { clock 40 min  playing half }
  concert 2026-10-02 "Fair" { clock 1 h  playing 10 min  upper 2 min }
  weeks 1 to 3 {
    Mon to Fri "Morning" 10 min {
      "Fifths"  keys C, D, A minor  twice
      "Steps"  valves open, 2  twice
    }
  }
}
`;

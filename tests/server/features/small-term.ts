/** A term with most of what can be special about a day: two players, a closure, a light day, a concert. */
export const SMALL_TERM = `area "Long tones"
exercise "High fall" {
  in "Long tones"  key C major  meter 4/4  tempo 1/4 = 60
  music { 1/1 C5 ' | }
  rest 20 s
}
level "Seniors" {
  instrument trumpet in Bb  stage senior
  upper from C5
  each day { clock at most 10 min  playing at most 8 min  upper at most 4 s  stretch at most 4 min }
}
student "R. A." like "Seniors" {
  each day { upper at most 1 min }
}
term "Autumn" for "Seniors" {
  from 2026-10-12 to 2026-10-31
  practice Mon to Sat
  closed 2026-10-26 to 2026-10-31 "half-term"
  light 2026-10-13 "fair"
  lesson every Wed
  concert 2026-10-24 "Harbour concert" { clock 30 min  playing 5 min }
  week 1 {
    Mon, Tue "Morning" 10 min { "High fall"  once }
    Wed, Thu "Morning" 10 min { "High fall"  twice }
  }
  week 2 {
    Mon "Morning" 10 min { "High fall"  in G  twice }
  }
}
`;

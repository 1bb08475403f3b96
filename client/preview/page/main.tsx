import { render } from "preact";
import type { ToPage } from "../messages";
import { App } from "./app";
import { Host } from "./host";

type Heard = Exclude<ToPage, { kind: "answer" }>;

let hear: (message: Heard) => void = () => {};
const host = new Host((message) => hear(message));
const root = document.getElementById("page");
if (root !== null) {
  render(
    <App
      host={host}
      hearing={(next) => {
        hear = next;
      }}
    />,
    root,
  );
}

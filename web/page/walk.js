// A walk through the invented case. The person's own case and view stay as they are: only what is
// on screen is another.
export const walkActs = (desk) => ({
  walk: async ({step}) => {
    const walk = Number(step);
    const {log} = await desk.ask("walk", {step: walk});
    const reply = await desk.ask("show", {log, view: {screen: "walk", walk}});
    desk.still(reply, "walk-title");
  },
  "leave-walk": () => desk.show(desk.view(), "title"),
});

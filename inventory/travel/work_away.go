package travel

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// away adds pieces that should be back, and those that are back and were not looked at
// or measured yet.
func (w *worklist) away() {
	late, back := map[inventory.Custody][]inventory.Number{}, map[string][]inventory.Number{}
	var lateOrder []inventory.Custody
	var backOrder []string
	for _, n := range inventory.OnceAway(w.v) {
		custody := inventory.MarksOf(w.v, n).CustodyAt(w.v.At)
		if !custody.Ours() && !custody.Due.Unknown() && custody.Due.End.Before(w.v.At) {
			if late[custody] == nil {
				lateOrder = append(lateOrder, custody)
			}
			late[custody] = append(late[custody], n)
		}
		if what := w.opens(n); what != "" {
			if back[what] == nil {
				backOrder = append(backOrder, what)
			}
			back[what] = append(back[what], n)
		}
	}
	for _, custody := range lateOrder {
		w.late(custody, late[custody])
	}
	for _, what := range backOrder {
		w.add(Item{Sort: WorkReturned, About: back[what][0], What: pieces(back[what]) + " " + what, Hint: "steeltally inspect, steeltally measure"})
	}
}

// late adds what is overdue, with what was promised.
func (w *worklist) late(custody inventory.Custody, about []inventory.Number) {
	item := Item{Sort: WorkOverdue, About: about[0], Since: custody.Due}
	item.What = fmt.Sprintf("%s %s, due %s", pieces(about), custody, custody.Due.SayDay(inventory.ClubOf(w.v).Location()))
	item.Hint = "steeltally custody back when it is here"
	switch custody.Decision {
	case inventory.DecisionReplace, inventory.DecisionCredit, inventory.DecisionRepair:
		item.What += ": " + string(custody.Decision) + " promised"
		item.Hint = "steeltally custody answer settled when it came"
	case "", inventory.DecisionOpen:
		if custody.Custody == inventory.CustodyMaker {
			item.What += ", no answer yet"
		}
	}
	w.add(item)
}

// opens tells what a piece that came back waits for; nothing where all is done.
func (w *worklist) opens(n inventory.Number) string {
	marks := inventory.MarksOf(w.v, n)
	back, from, ok := marks.CameBack(w.v.At)
	if !ok || !standing.Skateable(w.v, w.v.At, n) {
		return ""
	}
	looked := false
	for _, look := range marks.Inspected.Until(w.v.At) {
		looked = looked || look.Value.Sound && !look.When.Start.Before(back.Start)
	}
	runner, err := inventory.FindRunner(w.v, n)
	measured := err != nil
	for i := 0; !measured && i < len(runner.Readings.Until(w.v.At)); i++ {
		measured = !runner.Readings[i].When.Start.Before(back.Start)
	}
	if n.Kind() == inventory.KindSet || looked && measured {
		return ""
	}
	since := fmt.Sprintf("back (was %s): ", from)
	switch {
	case looked:
		return since + "measure"
	case measured:
		return since + "look at it"
	}
	return since + "look at it, measure"
}

package demo

import (
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing"
	"steeltally/inventory/standing/standingtest"
)

// TestEverySpareHasAnAnswer: at the end everybody has a spare pair with both holders and
// steel, but for the one that waits for a holder; some are ready, and each thing that can
// be left undone shows.
func TestEverySpareHasAnAnswer(t *testing.T) {
	fixes, states := map[sparepair.Fix]int{}, map[sparepair.State]int{}
	for seed := range uint64(5) {
		c, m := played(t, Options{Seed: seed + 1, End: endDay()})
		squad := sparepair.Squad(standingtest.Look(m, c.end))
		if len(squad) != goalkeepers+defenders+forwards {
			t.Errorf("%d players on the roster", len(squad))
		}
		ready := 0
		for _, p := range squad {
			states[p.Spare.State]++
			if p.Spare.State == sparepair.Ready {
				ready++
			}
			for _, cause := range p.Spare.Causes {
				fixes[cause.Fix]++
			}
			if len(p.Sets) < 1 {
				t.Errorf("%s has no ready set", p.Name)
			}
		}
		t.Logf("seed %d: %d of %d spare pairs are ready", seed+1, ready, len(squad))
		if ready < 5 {
			t.Errorf("only %d spare pairs are ready", ready)
		}
	}
	t.Log(states, fixes)
	for _, fix := range []sparepair.Fix{
		sparepair.FixHolder, sparepair.FixSteel, sparepair.FixDamage, sparepair.FixHollow, sparepair.FixHeight, sparepair.FixGrind,
		sparepair.FixLook, sparepair.FixTry,
	} {
		if fixes[fix] == 0 {
			t.Errorf("no spare pair needs %s", fix)
		}
	}
	if states[sparepair.Declined] == 0 {
		t.Error("nobody would rather not skate on his spare pair")
	}
}

// TestOnlyNeglectedDamagesAreOpen: what came loose was mended, but for the bolt that was
// ordered for one spare pair and what came loose on the last days.
func TestOnlyNeglectedDamagesAreOpen(t *testing.T) {
	c, m := usual(t)
	open := 0
	m.Each(inventory.KindHolder, func(n inventory.Number, e inventory.Entity) bool {
		holder := e.(*inventory.Holder)
		for _, damage := range holder.OpenDamages(c.end) {
			if damage.Unsafe {
				continue
			}
			open++
			since := holder.Damages[len(holder.Damages)-1].When.Start
			if since.Before(c.end.AddDate(0, 0, -neglectDays-7)) {
				t.Errorf("%s is %s since %s", n.Short(), damage.Mode, since)
			}
		}
		return true
	})
	if open == 0 {
		t.Error("no loose bolt is left")
	}
}

// TestRosterIsFullAtTheEnd: 8 defenders, 17 forwards, 3 goalkeepers, each with a first
// pair that has steel, and goalkeepers with steel of their own.
func TestRosterIsFullAtTheEnd(t *testing.T) {
	c, m := usual(t)
	count := map[string]int{}
	for _, member := range inventory.RosterOf(m).Members {
		player := m.states[inventory.RefOf(member.Player)].(*inventory.Player)
		if player.Gone {
			continue
		}
		count[player.Position]++
		first, err := inventory.PairInRole(m, player, inventory.RoleFirst, c.end)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, side := range sides() {
			seat := first.SeatAt(side, c.end)
			runner, err := inventory.FindRunner(m, seat.Runner)
			if err != nil {
				t.Errorf("%s has no steel on the %s: %v", player.Name, side, err)
				continue
			}
			if thick := runner.Thickness == 4; thick != player.Goalkeeper() {
				t.Errorf("%s, %s, skates on steel of %s", player.Name, player.Position, runner.Thickness)
			}
		}
	}
	if count["goalkeeper"] != goalkeepers || count["defence"] != defenders || count["forward"] != forwards {
		t.Errorf("the roster has %v", count)
	}
	if skating := len(standing.Skating(m, c.end)); skating != goalkeepers+defenders+forwards {
		t.Errorf("%d players have steel on their first pair", skating)
	}
}

// TestScheduleRunsOn: there are games and practices in the weeks after the end.
func TestScheduleRunsOn(t *testing.T) {
	c, m := usual(t)
	games, practices := 0, 0
	for _, s := range inventory.Sessions(m, c.end, c.end.AddDate(0, 0, 28)) {
		if s.Value.Game {
			games++
		} else {
			practices++
		}
	}
	if games < 4 || practices < 10 {
		t.Errorf("%d games and %d practices in the next four weeks", games, practices)
	}
}

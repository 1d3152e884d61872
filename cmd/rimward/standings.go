package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/standings"
)

var standingsCommand = command{
	name: "standings", about: "says which wicks come closest to a full pool in time", do: showStandings,
	usage: `rimward standings [--data DIR] [--json]
rimward standings --from FILE [--json]

` + dataHelp + `  --from FILE       rank readings that were kept elsewhere, in place of the journal;
                    - reads them from standard input
  --json            write the answer for other programs, with nothing rounded

Reads only. FILE is CSV in UTF-8, parted by commas or semicolons, one line for
each look at a pool, below a line with the names of the columns, in any order:

  vessel          its name
  inner_width_mm  inside, at the wax line
  target_hour     when the pool should be full; the column may be missing, and
                  cells blank, for one hour an inch and at most four
  series          the ladder of wicks, or the wick where it has none
  rung            place of the wick in its ladder, a whole number; blank
                  throughout a series for wicks without a ladder
  candle, burn    which candle, and which of its burns
  hour            hours since lighting, such as 2.5
  width_mm        width of the pool; may be blank when it was full
  full            yes when melted wax touched the wall all round, else no
`,
}

// showStandings ranks the journal's pairings, or readings kept elsewhere.
func showStandings(ctx context.Context, args []string, around surroundings) error {
	fs := newFlags("standings")
	data, from, asJSON := dataFlag(fs), fs.String("from", "", ""), fs.Bool("json", false, "")
	if _, err := parse(fs, args); err != nil {
		return err
	}
	if *from != "" && *data != "" {
		return misused("Give --data for the journal or --from for readings kept elsewhere, not both.")
	}
	var table standings.Table
	var err error
	units := quantity.Metric
	if *from != "" {
		table, err = ofSheet(ctx, *from, around)
	} else {
		table, units, err = ofJournal(ctx, *data, around)
	}
	if err != nil {
		return err
	}
	if *asJSON {
		return table.WriteJSON(around.out)
	}
	return writeStandings(around.out, table, units)
}

// ofJournal works out everything that the journal has.
func ofJournal(ctx context.Context, data string, around surroundings) (standings.Table, quantity.Units, error) {
	var none standings.Table
	path, err := journalPath(data, around.env)
	if err != nil {
		return none, quantity.Units{}, err
	}
	store, err := sqlite.Look(ctx, path)
	if err != nil {
		return none, quantity.Units{}, err
	}
	table, units, err := ofStore(ctx, store)
	return table, units, errors.Join(err, store.Close())
}

func ofStore(ctx context.Context, store *sqlite.Store) (standings.Table, quantity.Units, error) {
	var none standings.Table
	set, err := store.Settings(ctx)
	if err != nil {
		return none, set.Units, err
	}
	logs, err := store.Logs(ctx)
	if err != nil {
		return none, set.Units, err
	}
	shelf, err := store.Wicks(ctx)
	if err != nil {
		return none, set.Units, err
	}
	table, err := standings.Work(ctx, logs, standings.OptionsOf(set, shelf), standings.PriorOf(set.Beliefs))
	return table, set.Units, err
}

// ofSheet works out readings that were kept elsewhere, with what a new journal
// would go by.
func ofSheet(ctx context.Context, from string, around surroundings) (standings.Table, error) {
	in, name := io.NopCloser(around.in), "standard input"
	if from != "-" {
		f, err := os.Open(from)
		if err != nil {
			return standings.Table{}, fmt.Errorf("%s cannot be read: %w", from, cause(err))
		}
		in, name = f, from
	}
	stacks, err := standings.ReadSheet(in, journal.DefaultSettings().Ruler)
	if err = errors.Join(err, in.Close()); err != nil {
		return standings.Table{}, fmt.Errorf("%s cannot be ranked:\n%w", name, err)
	}
	return standings.WorkStacks(ctx, stacks, standings.PriorOf(nil))
}

package sqlite

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"rimward/internal/journal"
)

// Settings reads the studio's choices; the defaults while nobody chose.
func (s *Store) Settings(ctx context.Context) (journal.Settings, error) {
	return view(ctx, s, func(r reader) (journal.Settings, error) { return r.settings() })
}

func (r reader) settings() (journal.Settings, error) {
	x := journal.DefaultSettings()
	_, err := r.value(`SELECT version, length_unit, mass_unit, temperature_unit, volume_unit, ruler, time_zone, scheme, apart, currency, scale_step, melter, bench_places FROM settings`, nil,
		&x.Version, &x.Units.Length, &x.Units.Mass, &x.Units.Temperature, &x.Units.Volume, &x.Ruler, &x.TimeZone, &x.Scheme, &x.Apart,
		&x.Currency, &x.ScaleStep, &x.Melter, &x.BenchPlaces)
	if err != nil {
		return x, err
	}
	err = r.rows(func(rows *sql.Rows) error {
		var key string
		var value float64
		if err := rows.Scan(&key, &value); err != nil {
			return err
		}
		if x.Limits == nil {
			x.Limits = map[string]float64{}
		}
		x.Limits[key] = value
		return nil
	}, "SELECT key, value FROM settings_limit")
	if err != nil {
		return x, err
	}
	x.Beliefs, err = r.beliefs()
	return x, err
}

// beliefs reads what was changed of them; nil when nothing was.
func (r reader) beliefs() (map[string][]float64, error) {
	var out map[string][]float64
	err := r.rows(func(rows *sql.Rows) error {
		var key string
		var value float64
		if err := rows.Scan(&key, &value); err != nil {
			return err
		}
		if out == nil {
			out = map[string][]float64{}
		}
		out[key] = append(out[key], value)
		return nil
	}, "SELECT key, value FROM settings_belief ORDER BY key, place")
	return out, err
}

// settingsID is the history's number for the settings: there is one set.
const settingsID journal.ID = 1

// SaveSettings keeps the studio's choices.
func (tx *Tx) SaveSettings(x *journal.Settings) error {
	before, err := tx.settings()
	if err != nil {
		return err
	}
	if x.Version != before.Version {
		return fmt.Errorf("correct settings: %w", journal.ErrConflict)
	}
	was, err := json.Marshal(before)
	if err != nil {
		return err
	}
	is, err := json.Marshal(x)
	if err != nil || bytes.Equal(was, is) {
		return err
	}
	next := *x
	next.Version++
	if err := tx.writeSettings(next); err != nil {
		return err
	}
	*x = next
	if is, err = json.Marshal(next); err != nil {
		return err
	}
	if before.Version == 0 {
		// What was there before were the defaults; they are worth keeping.
		if err := tx.remember(journal.NounSettings, settingsID, journal.Written, nil, was); err != nil {
			return err
		}
	}
	return tx.remember(journal.NounSettings, settingsID, journal.Corrected, was, is)
}

func (tx *Tx) writeSettings(x journal.Settings) error {
	if _, err := time.LoadLocation(x.TimeZone); err != nil || x.TimeZone == "" || x.TimeZone == "Local" {
		return journal.Invalid("time_zone", "This time zone is not known here.")
	}
	_, err := tx.tx.ExecContext(tx.ctx, `INSERT INTO settings (id, version, length_unit, mass_unit, temperature_unit, volume_unit, ruler, time_zone, scheme, apart,
		currency, scale_step, melter, bench_places)
		VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET version = excluded.version, length_unit = excluded.length_unit,
		mass_unit = excluded.mass_unit, temperature_unit = excluded.temperature_unit, volume_unit = excluded.volume_unit,
		ruler = excluded.ruler, time_zone = excluded.time_zone, scheme = excluded.scheme, apart = excluded.apart,
		currency = excluded.currency, scale_step = excluded.scale_step, melter = excluded.melter, bench_places = excluded.bench_places`,
		x.Version, x.Units.Length, x.Units.Mass, x.Units.Temperature, x.Units.Volume, x.Ruler, x.TimeZone, x.Scheme, x.Apart,
		x.Currency, x.ScaleStep, x.Melter, x.BenchPlaces)
	if err != nil {
		return tx.refused(err, journal.NounSettings, nil, journal.Problem{})
	}
	if err := tx.exec("DELETE FROM settings_limit"); err != nil {
		return err
	}
	for _, key := range slices.Sorted(maps.Keys(x.Limits)) {
		if _, err := tx.tx.ExecContext(tx.ctx, "INSERT INTO settings_limit (key, value) VALUES (?, ?)", key, x.Limits[key]); err != nil {
			return tx.refused(err, journal.NounSettings, nil, journal.Problem{})
		}
	}
	return tx.writeBeliefs(x.Beliefs)
}

func (tx *Tx) writeBeliefs(beliefs map[string][]float64) error {
	if err := tx.exec("DELETE FROM settings_belief"); err != nil {
		return err
	}
	for _, key := range slices.Sorted(maps.Keys(beliefs)) {
		for place, value := range beliefs[key] {
			if _, err := tx.tx.ExecContext(tx.ctx, "INSERT INTO settings_belief (key, place, value) VALUES (?, ?, ?)", key, place, value); err != nil {
				return tx.refused(err, journal.NounSettings, nil, journal.Problem{})
			}
		}
	}
	return nil
}

package form

import (
	"regexp"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// mostLevels is how many values one list of levels takes.
const mostLevels = 8

var (
	oneOfSeveral = regexp.MustCompile(`(?i)\d+(?:[.,]\d+)?\s*(?:%|per ?cent|[°º]?\s*(?:[cf]\b)|[°º])?`)
	betweenThem  = regexp.MustCompile(`(?i)^(?:[\s,;/&]|\band\b|\bor\b|\bversus\b|\bvs\b)*$`)
	surelyParted = regexp.MustCompile(`(?i);|/|&|\band\b|\bor\b|\bvs\b|\bversus\b|\d\s+\d|,\s`)
	bareEnd      = regexp.MustCompile(`[\d\s]$`)
)

// Several parts a list as a hand writes it: 8, 10 or 8 and 10 or 8; 10. It says
// in a sentence what cannot be read. A number without a unit takes the one of
// the last that has one.
func Several(text, example string) (parts []string, sentence string) {
	text = strings.TrimSpace(text)
	found := oneOfSeveral.FindAllString(text, -1)
	if len(found) == 0 || !betweenThem.MatchString(oneOfSeveral.ReplaceAllString(text, " ")) {
		return nil, "Write one value or several, such as " + example + "."
	}
	if len(found) > mostLevels {
		return nil, "At most eight values in one list."
	}
	for _, f := range found {
		if strings.Contains(f, ",") && !surelyParted.MatchString(text) {
			f = strings.TrimSpace(f)
			return nil, "“" + f + "” can be read in two ways. Write " + strings.Replace(f, ",", ".", 1) + ", or " + strings.Replace(f, ",", "; ", 1) + "."
		}
		parts = append(parts, strings.TrimSpace(f))
	}
	return sharedUnit(parts), ""
}

// sharedUnit gives numbers without a unit that of the last that has one.
func sharedUnit(parts []string) []string {
	unit := ""
	for _, p := range parts {
		if !bareEnd.MatchString(p) {
			unit = strings.TrimSpace(strings.TrimLeft(p, "+-0123456789.,"))
		}
	}
	for i, p := range parts {
		if bareEnd.MatchString(p) && unit != "" {
			parts[i] = p + " " + unit
		}
	}
	return parts
}

// readSeveral reads a list of values, each once; nil when empty or unreadable.
func readSeveral[T comparable](p *Parser, name, example string, parse func(string) (T, error)) []T {
	if p.raw(name) == "" {
		return nil
	}
	parts, wrong := Several(p.raw(name), example)
	if wrong != "" {
		p.Problem(name, wrong)
		return nil
	}
	var out []T
	seen := map[T]bool{}
	for _, part := range parts {
		v, err := parse(part)
		if err != nil {
			p.Problem(name, err.Error())
			return nil
		}
		if seen[v] {
			p.Problem(name, "Write each value once: "+part+" stands here twice.")
			return nil
		}
		seen[v] = true
		out = append(out, v)
	}
	return out
}

// Percents reads a list of shares in per cent.
func (p *Parser) Percents(name string) []quantity.Fraction {
	return readSeveral(p, name, "8 or 8; 10", quantity.ParsePercent)
}

// Temperatures reads a list of temperatures in the person's units.
func (p *Parser) Temperatures(name string) []quantity.Celsius {
	return readSeveral(p, name, "60 or 60; 65", func(s string) (quantity.Celsius, error) {
		return quantity.ParseTemperature(s, p.shared.units.Temperature)
	})
}

// Counts reads a list of whole numbers.
func (p *Parser) Counts(name string) []int {
	return readSeveral(p, name, "1 or 1; 2", quantity.ParseCount)
}

// IDs reads every ID that was ticked under one name.
func (p *Parser) IDs(name string) []journal.ID {
	var out []journal.ID
	for _, s := range p.Strings(name) {
		n, err := quantity.ParseCount(s)
		if err != nil || n < 1 {
			p.Problem(name, chooseSentence)
			return nil
		}
		out = append(out, journal.ID(n))
	}
	return out
}

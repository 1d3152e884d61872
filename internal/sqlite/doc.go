// Package sqlite keeps the journal in one SQLite file. It holds the only SQL
// of the program: opening and migrating the file, writing nouns in
// transactions that check the journal's rules, reading them back, the history
// of every change, backup and verification.
//
// It decides nothing about candles: the rules are the journal's, and it calls
// them inside the transaction that writes. It deletes nothing, and it refuses
// to touch a file that is not a journal or that a newer program made.
package sqlite

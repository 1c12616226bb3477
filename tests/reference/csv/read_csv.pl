#!/usr/bin/env perl
# SPDX-License-Identifier: GPL-3.0-or-later
# SPDX-FileCopyrightText: The Gaspworks authors
# Prints the records of a CSV file as JSON, read by Text::CSV as strictly as it can.
use strict;
use warnings;
use JSON::PP;
use Text::CSV;

my $csv = Text::CSV->new({binary => 1, strict => 1, auto_diag => 2, eol => "\r\n", allow_loose_quotes => 0,
                          allow_whitespace => 0});
open my $file, "<:raw", $ARGV[0] or die "$ARGV[0]: $!";
my @rows;
while (my $row = $csv->getline($file)) {
    utf8::decode($_) for @$row;
    push @rows, $row;
}
$csv->eof or die "$ARGV[0]: " . $csv->error_diag;
print JSON::PP->new->ascii->encode(\@rows), "\n";

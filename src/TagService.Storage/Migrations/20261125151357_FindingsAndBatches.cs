using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TagService.Storage.Migrations
{
    /// <inheritdoc />
    public partial class FindingsAndBatches : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "attachment_id",
                table: "range_measurements",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "answers_between",
                table: "range_calibrations",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.CreateTable(
                name: "range_calibrations_due",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityAlwaysColumn),
                    tag_class_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    material_id = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_range_calibrations_due", x => x.id);
                });

            migrationBuilder.CreateIndex(
                name: "ix_range_measurements_attachment_id",
                table: "range_measurements",
                column: "attachment_id",
                unique: true,
                filter: "attachment_id IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_range_calibrations_due_tag_class_id_material_id",
                table: "range_calibrations_due",
                columns: new[] { "tag_class_id", "material_id" });

            // NOT VALID: every new row is checked, older ones are not looked at. Attachments may name batches that nobody has entered;
            // inventing those batches or forgetting what was recorded would both be worse. They count as soon as the batch is entered.
            migrationBuilder.Sql(
                """
                ALTER TABLE attachments ADD CONSTRAINT fk_attachments_tag_batches_tag_batch_id
                FOREIGN KEY (tag_batch_id) REFERENCES tag_batches (id) ON DELETE RESTRICT NOT VALID
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_attachments_tag_batches_tag_batch_id",
                table: "attachments");

            migrationBuilder.DropTable(
                name: "range_calibrations_due");

            migrationBuilder.DropIndex(
                name: "ix_range_measurements_attachment_id",
                table: "range_measurements");

            migrationBuilder.DropColumn(
                name: "attachment_id",
                table: "range_measurements");

            migrationBuilder.DropColumn(
                name: "answers_between",
                table: "range_calibrations");
        }
    }
}
